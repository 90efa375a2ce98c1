#include "files/survey_gpx.h"

#include <pugixml.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/utf8.h"
#include "files/toml_prescan.h"
#include "files/units.h"

namespace spanloom {
namespace {

constexpr std::string_view kNamespace = "http://www.topografix.com/GPX/1/1";
constexpr const char* kKey = "gpx";

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlanks);
  if (first == text.npos) return {};
  return text.substr(first, text.find_last_not_of(kBlanks) + 1 - first);
}

std::string folded(std::string_view text) {
  std::string out(trimmed(text));
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// Lines and columns of bytes, asked for in any order.
class LinePlaces {
 public:
  explicit LinePlaces(std::string_view text) : text_(text), starts_{0} {
    for (std::size_t at = 0; (at = text.find('\n', at)) != text.npos;) starts_.push_back(++at);
  }

  Place of(std::ptrdiff_t offset) const {
    const std::size_t at = std::min(static_cast<std::size_t>(std::max<std::ptrdiff_t>(offset, 0)), text_.size());
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), at);
    const std::size_t start = *(next - 1);
    const std::size_t column = utf8_length(text_.substr(start, at - start)) + 1;
    return {static_cast<int>(next - starts_.begin()), static_cast<int>(column)};
  }

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

/// One pass over a GPX file.
class Reader {
 public:
  Reader(std::string_view text, const std::string& file, const AnchorNames& names, Findings& findings)
      : text_(text), places_(text), file_(file), names_(names), findings_(findings) {}

  std::optional<GpxGap> read() {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(text_.data(), text_.size(), pugi::parse_default, pugi::encoding_utf8);
    if (!parsed) {
      const std::string why = parsed.description();
      complain(places_.of(parsed.offset), "broken XML", "well-formed XML", why);
      return std::nullopt;
    }
    const pugi::xml_node root = document.document_element();
    if (!take_namespace(root)) return std::nullopt;
    take_anchors(root);
    take_tracks(root);
    if (!sound_) return std::nullopt;
    return std::move(gap_);
  }

 private:
  void complain(Place place, std::string read, std::string expected, std::string cure) {
    sound_ = false;
    findings_.add(file_, place, {kKey, std::move(read), std::move(expected), std::move(cure)});
  }

  Place place_of(const pugi::xml_node& node) const { return places_.of(node.offset_debug()); }

  /// Elements of GPX have the prefix of the root, if it has one.
  std::string tag(const char* name) const { return prefix_ + name; }

  bool take_namespace(const pugi::xml_node& root) {
    const std::string name = root.name();
    const std::size_t colon = name.find(':');
    prefix_ = colon == name.npos ? "" : name.substr(0, colon + 1);
    if (name.substr(prefix_.size()) != "gpx") {
      complain(place_of(root), in_quotes(name), "a GPX file: <gpx ...>", "export the waypoints as GPX 1.1");
      return false;
    }
    const std::string attribute = colon == name.npos ? "xmlns" : "xmlns:" + name.substr(0, colon);
    const std::string_view given = root.attribute(attribute.c_str()).value();
    if (given == kNamespace) return true;
    complain(place_of(root), given.empty() ? "no namespace" : in_quotes(given),
             "GPX 1.1: xmlns=" + in_quotes(kNamespace), "export the waypoints as GPX 1.1");
    return false;
  }

  std::optional<double> number(const pugi::xml_node& node, std::string_view text, const char* what, double most) {
    const std::optional<double> value = parse_number(trimmed(text));
    if (value && std::abs(*value) <= most) return value;
    complain(place_of(node), text.empty() ? "nothing" : in_quotes(text), std::string(what), "");
    return std::nullopt;
  }

  /// @return nothing, and a complaint, if latitude, longitude or a height that is there are wrong
  std::optional<GeoPoint> point(const pugi::xml_node& node) {
    const auto latitude = number(node, node.attribute("lat").value(), "lat, decimal degrees from -90 to 90", 90.0);
    const auto longitude = number(node, node.attribute("lon").value(), "lon, decimal degrees from -180 to 180", 180.0);
    const pugi::xml_node ele = node.child(tag("ele").c_str());
    const std::optional<double> height = ele ? number(ele, ele.text().get(), "ele, a height in metres", 1e5) : 0.0;
    if (!latitude || !longitude || !height) return std::nullopt;
    return GeoPoint{*latitude, *longitude, *height};
  }

  void take_anchors(const pugi::xml_node& root) {
    if (folded(names_.near) == folded(names_.far)) {
      complain(place_of(root), in_quotes(names_.near), "two names, one for each anchor", "");
      return;
    }
    gap_.near = anchor_named(root, names_.near);
    gap_.far = anchor_named(root, names_.far);
  }

  GpxAnchor anchor_named(const pugi::xml_node& root, const std::string& name) {
    std::string others;
    std::optional<GpxAnchor> anchor;
    const std::string waypoint = tag("wpt");  // pugixml keeps the pointer while it goes along
    for (const pugi::xml_node& wpt : root.children(waypoint.c_str())) {
      const std::string_view given = wpt.child(tag("name").c_str()).text().get();
      if (folded(given) != folded(name)) {
        others += (others.empty() ? "" : ", ") + in_quotes(trimmed(given));
        continue;
      }
      if (anchor) {
        complain(place_of(wpt), "a second waypoint " + in_quotes(name), "one waypoint of that name",
                 "rename one of the two");
        continue;
      }
      if (!wpt.child(tag("ele").c_str())) {
        complain(place_of(wpt), "no <ele>", "a waypoint with its height in <ele>", "without heights there is no rise");
      }
      anchor = GpxAnchor{point(wpt).value_or(GeoPoint{}), place_of(wpt)};
    }
    if (!anchor) {
      complain(
          place_of(root), "no waypoint " + in_quotes(name), "a waypoint of that name",
          others.empty() ? "the file has no waypoints" : "its waypoints are " + others + "; say which are the anchors");
    }
    return anchor.value_or(GpxAnchor{});
  }

  void take_tracks(const pugi::xml_node& root) {
    const std::string trk = tag("trk"), trkseg = tag("trkseg"), trkpt = tag("trkpt");
    for (const pugi::xml_node& track : root.children(trk.c_str())) {
      for (const pugi::xml_node& segment : track.children(trkseg.c_str())) {
        for (const pugi::xml_node& node : segment.children(trkpt.c_str())) {
          const std::optional<GeoPoint> p = point(node);
          const bool has_height = static_cast<bool>(node.child(tag("ele").c_str()));
          if (p && has_height) gap_.track.push_back(*p);
          if (p && !has_height) ++gap_.track_without_height;
        }
      }
    }
  }

  std::string_view text_;
  LinePlaces places_;
  const std::string& file_;
  const AnchorNames& names_;
  Findings& findings_;
  std::string prefix_;
  GpxGap gap_;
  bool sound_ = true;
};

}  // namespace

std::optional<GpxGap> read_gpx(std::string_view text, const std::string& file, const AnchorNames& names,
                               Findings& findings) {
  text = without_byte_order_mark(text);
  if (text.size() > kLargestGpx) {
    findings.add(file, {},
                 {kKey, std::to_string(text.size()) + " bytes", "a GPX file of at most 20 MB", "cut the track short"});
    return std::nullopt;
  }
  if (const std::optional<PrescanFault> fault = find_broken_utf8(text)) {
    findings.add(file, fault->place, {kKey, fault->problem.read, fault->problem.expected, fault->problem.cure});
    return std::nullopt;
  }
  return Reader(text, file, names, findings).read();
}

bool looks_like_xml(std::string_view text) {
  text = without_byte_order_mark(text);
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != text.npos && text[first] == '<';
}

}  // namespace spanloom
