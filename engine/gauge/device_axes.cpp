#include "gauge/device_axes.h"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>
#include <fmt/format.h>

#include "base/constants.h"

namespace spanloom {
namespace {

Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

Vec3 mean_of(const std::vector<Acceleration>& record) {
  Vec3 sum;
  for (const Acceleration& row : record) sum += Vec3{row.x, row.y, row.z};
  return (1.0 / double(record.size())) * sum;
}

// Any direction square to one.
Vec3 square_to(const Vec3& a) {
  const double x = std::abs(a.x), y = std::abs(a.y), z = std::abs(a.z);
  const Vec3 least = x <= y && x <= z ? Vec3{1, 0, 0} : y <= z ? Vec3{0, 1, 0} : Vec3{0, 0, 1};
  const Vec3 out = cross(a, least);
  return (1.0 / norm(out)) * out;
}

// Takes cubics in time off the columns.
void take_trend_off(const std::vector<Acceleration>& record, Eigen::MatrixXd& motion) {
  const double from = record.front().time, half = 0.5 * (record.back().time - from);
  Eigen::MatrixXd cubic(motion.rows(), 4);
  for (Eigen::Index i = 0; i < motion.rows(); ++i) {
    const double t = (record[std::size_t(i)].time - from) / half - 1.0;
    cubic.row(i) << 1.0, t, 1.5 * t * t - 0.5, (2.5 * t * t - 1.5) * t;   // Legendre's
  }
  const Eigen::MatrixXd share = (cubic.transpose() * cubic).ldlt().solve(cubic.transpose() * motion);
  motion -= cubic * share;
}

std::string no_gravity_words(double mean) {
  if (mean < kNoGravity) {
    return "gravity has been taken out of the record, so nothing tells which way is up: record acceleration with gravity, "
           "or say which axis of the device pointed up";
  }
  return fmt::format("the mean of the record is {:.2f} m/s2, neither gravity ({:.2f} m/s2) nor nothing: are the units in the "
                     "head of the file right, and are x, y and z all there?", mean, kGravity);
}

}  // namespace

DeviceMotionOutcome device_motion(const std::vector<Acceleration>& record, const std::optional<Vec3>& device_up) {
  DeviceMotion out;
  const Vec3 mean = mean_of(record);
  out.mean = norm(mean);
  out.has_gravity = std::abs(out.mean - kGravity) <= kGravityOff;
  const bool told = device_up && out.mean < kNoGravity;
  if (!out.has_gravity && !told) return {std::nullopt, no_gravity_words(out.mean)};
  const Vec3 upwards = told ? *device_up : mean;
  out.up = (1.0 / norm(upwards)) * upwards;
  const Vec3 one = square_to(out.up), other = cross(out.up, one);
  Eigen::MatrixXd motion(Eigen::Index(record.size()), 3);
  for (std::size_t i = 0; i < record.size(); ++i) {
    const Vec3 a = Vec3{record[i].x, record[i].y, record[i].z} - mean;
    motion.row(Eigen::Index(i)) << dot(a, out.up), dot(a, one), dot(a, other);
  }
  take_trend_off(record, motion);
  const auto level = motion.rightCols(2);
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> axes(Eigen::Matrix2d(level.transpose() * level));
  const Eigen::Vector2d main = axes.eigenvectors().col(1);
  const double all = axes.eigenvalues().sum();
  out.sideways = main[0] * one + main[1] * other;
  out.sideways_share = all > 0.0 ? axes.eigenvalues()[1] / all : 0.5;
  const Eigen::VectorXd sideways = level * main;
  out.moved_up.assign(motion.col(0).begin(), motion.col(0).end());
  out.moved_sideways.assign(sideways.begin(), sideways.end());
  return {std::move(out), {}};
}

}  // namespace spanloom
