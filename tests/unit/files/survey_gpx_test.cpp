#include "files/survey_gpx.h"

#include <gtest/gtest.h>

#include <string>

namespace spanloom {
namespace {

std::string gpx(const std::string& inside, const std::string& head = "xmlns=\"http://www.topografix.com/GPX/1/1\"") {
  return "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" " + head + ">\n" + inside + "</gpx>\n";
}

std::string wpt(const std::string& name, const std::string& ele = "<ele>300</ele>") {
  return "  <wpt lat=\"-10.0\" lon=\"-20.0\">" + ele + "<name>" + name + "</name></wpt>\n";
}

std::string problems(const std::string& text, const AnchorNames& names = {}) {
  Findings findings;
  EXPECT_FALSE(read_gpx(text, "gap.gpx", names, findings)) << text;
  std::string out;
  for (const FileProblem& p : findings.in_reading_order()) out += to_text(p) + '\n';
  return out;
}

std::optional<GpxGap> read(const std::string& text, const AnchorNames& names = {}) {
  Findings findings;
  std::optional<GpxGap> gap = read_gpx(text, "gap.gpx", names, findings);
  for (const FileProblem& p : findings.in_reading_order()) ADD_FAILURE() << to_text(p);
  return gap;
}

TEST(Gpx, FindsTheAnchorsByNameWhateverTheCase) {
  const auto gap = read(gpx(wpt(" Near Anchor ") + wpt("camp", "") +
                            "<wpt lat=\"-10.5\" lon=\"20.25\"><ele>310.5</ele><name>FAR ANCHOR</name></wpt>\n"));
  ASSERT_TRUE(gap);
  EXPECT_EQ(gap->near.at.latitude, -10.0);
  EXPECT_EQ(gap->far.at.longitude, 20.25);
  EXPECT_EQ(gap->far.at.height, 310.5);
  EXPECT_EQ(gap->near.place.line, 3);
  EXPECT_EQ(gap->near.place.column, 4);
}

TEST(Gpx, TakesOtherNames) {
  EXPECT_TRUE(read(gpx(wpt("west") + wpt("east")), {"west", "East"}));
}

TEST(Gpx, TakesTrackPointsAndCountsThoseWithoutHeight) {
  const auto gap =
      read(gpx(wpt("near anchor") + wpt("far anchor") +
               "<trk><trkseg><trkpt lat=\"1\" lon=\"2\"><ele>3</ele></trkpt><trkpt lat=\"1\" lon=\"2\"/></trkseg>"
               "<trkseg><trkpt lat=\"4\" lon=\"5\"><ele>-6</ele></trkpt></trkseg></trk>"));
  ASSERT_TRUE(gap);
  ASSERT_EQ(gap->track.size(), 2u);
  EXPECT_EQ(gap->track[1].height, -6.0);
  EXPECT_EQ(gap->track_without_height, 1u);
}

TEST(Gpx, ReadsOtherLineEndsAndAByteOrderMark) {
  std::string text = gpx(wpt("near anchor") + wpt("far anchor"));
  for (std::size_t at = 0; (at = text.find('\n', at)) != text.npos; at += 2) text.replace(at, 1, "\r\n");
  const auto gap = read("\xEF\xBB\xBF" + text);
  ASSERT_TRUE(gap);
  EXPECT_EQ(gap->far.place.line, 4);
  EXPECT_EQ(gap->far.place.column, 4);
}

TEST(Gpx, ReadsElementsWithAPrefix) {
  EXPECT_TRUE(read("<g:gpx xmlns:g=\"http://www.topografix.com/GPX/1/1\">"
                   "<g:wpt lat=\"1\" lon=\"2\"><g:ele>3</g:ele><g:name>near anchor</g:name></g:wpt>"
                   "<g:wpt lat=\"1\" lon=\"2.001\"><g:ele>3</g:ele><g:name>far anchor</g:name></g:wpt></g:gpx>"));
}

TEST(Gpx, SaysWhichWaypointsThereAre) {
  const std::string said = problems(gpx(wpt("near anchor") + wpt("tree")));
  EXPECT_NE(said.find("gap.gpx:2:2: gpx: read no waypoint \"far anchor\""), std::string::npos) << said;
  EXPECT_NE(said.find("\"tree\""), std::string::npos) << said;
}

TEST(Gpx, RefusesTwoWaypointsOfOneName) {
  const std::string said = problems(gpx(wpt("near anchor") + wpt("far anchor") + wpt("Near anchor")));
  EXPECT_NE(said.find("gap.gpx:5:4: gpx: read a second waypoint \"near anchor\""), std::string::npos) << said;
}

TEST(Gpx, RefusesOtherNamespaces) {
  const std::string anchors = wpt("near anchor") + wpt("far anchor");
  EXPECT_NE(problems(gpx(anchors, "xmlns=\"http://www.topografix.com/GPX/1/0\"")).find("GPX 1.1"), std::string::npos);
  EXPECT_NE(problems(gpx(anchors, "")).find("no namespace"), std::string::npos);
  EXPECT_NE(problems("<kml></kml>").find("read \"kml\""), std::string::npos);
}

TEST(Gpx, SaysWhereTheXmlIsBroken) {
  const std::string said = problems("<?xml version=\"1.0\"?>\n<gpx>\n  <wpt lat=\"1\" lon=>\n</gpx>");
  EXPECT_NE(said.find("gap.gpx:3:20:"), std::string::npos) << said;
  EXPECT_NE(said.find("broken XML"), std::string::npos) << said;
}

TEST(Gpx, TellsEveryWrongNumber) {
  const std::string said =
      problems(gpx("<wpt lat=\"91\" lon=\"x\"><ele>1,5</ele><name>near anchor</name></wpt>\n" + wpt("far anchor", "")));
  for (const char* part : {"\"91\"", "\"x\"", "\"1,5\"", "no <ele>"})
    EXPECT_NE(said.find(part), std::string::npos) << part << said;
}

TEST(Gpx, ExpandsNoEntities) {
  std::string bomb = "<!DOCTYPE gpx [<!ENTITY a \"near anchor\">";
  for (char c = 'b'; c < 'k'; ++c)
    bomb += std::string("<!ENTITY ") + c + " \"&" + char(c - 1) + ";&" + char(c - 1) + ";\">";
  bomb += "]>\n";
  const std::string said = problems(bomb + gpx(wpt("&a;") + wpt("far anchor")).substr(22));
  EXPECT_NE(said.find("no waypoint \"near anchor\""), std::string::npos) << said;
  EXPECT_NE(said.find("&a;"), std::string::npos) << said;
}

TEST(Gpx, RefusesBytesThatAreNotUtf8) {
  EXPECT_NE(problems(gpx(wpt("near \xFF") + wpt("far anchor"))).find("gap.gpx:3:"), std::string::npos);
}

TEST(Coordinate, SaysWhatIsWrong) {
  const auto fault = [](const char* text, Axis axis) {
    const auto parsed = parse_coordinate(text, axis);
    const auto* f = std::get_if<QuantityFault>(&parsed);
    return f == nullptr ? "none" : f->cure.empty() ? f->expected : f->cure;
  };
  EXPECT_EQ(fault("45.1", Axis::latitude), "say N, S or deg behind it");
  EXPECT_EQ(fault("45.1 E", Axis::latitude), "E and W are of a longitude");
  EXPECT_EQ(fault("45,1 N", Axis::latitude), "write decimals with a point");
  EXPECT_EQ(fault("181 deg", Axis::longitude), "at most 180 deg");
  for (const char* text : {"", "deg", "N", "nan deg", "inf deg", "1 30 N", "4x N"})
    EXPECT_NE(fault(text, Axis::latitude), "none") << text;
}

}  // namespace
}  // namespace spanloom
