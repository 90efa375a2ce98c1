#include "svg_reading.h"

#include <cstdlib>

namespace spanloom::fixture {
namespace {

std::string attribute(const std::string& tag, const std::string& name) {
  const std::size_t at = tag.find(" " + name + "=\"");
  if (at == std::string::npos) return "";
  const std::size_t from = at + name.size() + 3;
  return tag.substr(from, tag.find('"', from) - from);
}

std::string resolved(std::string text) {
  const std::pair<const char*, const char*> entities[] = {
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&amp;", "&"}};
  for (const auto& [entity, sign] : entities) {
    for (std::size_t at = text.find(entity); at != std::string::npos; at = text.find(entity, at + 1)) {
      text.replace(at, std::string(entity).size(), sign);
    }
  }
  return text;
}

}  // namespace

std::vector<ReadText> texts_of(const std::string& svg) {
  std::vector<ReadText> texts;
  for (std::size_t at = svg.find("<text "); at != std::string::npos; at = svg.find("<text ", at + 1)) {
    const std::size_t open = svg.find('>', at);
    const std::string tag = svg.substr(at, open - at);
    const std::string anchor = attribute(tag, "text-anchor");
    texts.push_back({resolved(svg.substr(open + 1, svg.find("</text>", open) - open - 1)),
                     std::atof(attribute(tag, "x").c_str()), std::atof(attribute(tag, "y").c_str()),
                     std::atof(attribute(tag, "font-size").c_str()), attribute(tag, "font-weight") == "bold",
                     anchor.empty() ? "start" : anchor});
  }
  return texts;
}

std::vector<std::string> groups_of(const std::string& svg, const std::string& name) {
  std::vector<std::string> groups;
  const std::string head = "<g class=\"" + name + "\">";
  for (std::size_t at = svg.find(head); at != std::string::npos; at = svg.find(head, at + 1)) {
    int depth = 1;
    std::size_t end = at + head.size();
    while (depth > 0) {
      const std::size_t open = svg.find("<g", end), close = svg.find("</g>", end);
      if (close == std::string::npos) break;
      depth += open < close ? 1 : -1;
      end = (open < close ? open : close) + 2;
    }
    groups.push_back(svg.substr(at, end - at));
  }
  return groups;
}

std::vector<std::string> texts_that_run_into_another(const std::string& svg) {
  std::vector<std::string> pairs;
  const std::vector<ReadText> texts = texts_of(svg);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t k = i + 1; k < texts.size(); ++k) {
      const ReadText &a = texts[i], &b = texts[k];
      const bool apart = a.right() <= b.left() + 0.5 || b.right() <= a.left() + 0.5 ||
                         a.y <= b.y - 0.73 * b.size || b.y <= a.y - 0.73 * a.size;
      if (!apart) pairs.push_back('"' + a.words + "\" and \"" + b.words + '"');
    }
  }
  return pairs;
}

std::vector<std::string> colours_of(const std::string& svg) {
  std::vector<std::string> colours;
  for (std::size_t at = svg.find("=\"#"); at != std::string::npos; at = svg.find("=\"#", at + 1)) {
    const std::string hex = svg.substr(at + 3, svg.find('"', at + 3) - at - 3);
    if (hex != std::string(hex.size(), hex[0])) colours.push_back(hex);  // #000, #777, #fff are greys
  }
  return colours;
}

std::string xml_fault(const std::string& svg) {
  std::vector<std::string> open;
  std::size_t at = svg.find("?>") + 2;
  while (at < svg.size()) {
    if (svg[at] == '&') {
      const std::size_t end = svg.find(';', at);
      const std::string entity = end == std::string::npos ? "" : svg.substr(at, end - at + 1);
      if (entity != "&lt;" && entity != "&gt;" && entity != "&amp;" && entity != "&quot;" && entity != "&apos;") {
        return "bare & at " + svg.substr(at, 20);
      }
    }
    if (svg[at] != '<') {
      ++at;
      continue;
    }
    const std::size_t end = svg.find('>', at);
    if (end == std::string::npos) return "tag without end";
    const std::string tag = svg.substr(at + 1, end - at - 1);
    const std::string name = tag.substr(tag[0] == '/', tag.find_first_of(" /", 1) - (tag[0] == '/'));
    if (tag[0] == '/') {
      if (open.empty() || open.back() != name) return "closes " + name;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(name);
    }
    at = end + 1;
  }
  return open.empty() ? "" : "open " + open.back();
}

}  // namespace spanloom::fixture
