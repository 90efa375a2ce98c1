#include "gauge/loops_as_hung.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include <Eigen/Dense>

#include "statics/length_rounds.h"

namespace spanloom {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// What the readings say about lengths, or about the one share that all lengths are off by.
struct Update {
  Vector mean;      // of what is unknown
  Matrix covariance;
  Vector off;       // of each reading against prior and the other readings, in standard deviations
};

// y = H u + noise of variance r, u about 0 with covariance p.
Update updated(const Matrix& prior, const Matrix& h, const Vector& read, const Vector& noise) {
  const Matrix total = h * prior * h.transpose() + Matrix(noise.asDiagonal());
  const Matrix inverse = total.ldlt().solve(Matrix::Identity(total.rows(), total.cols()));
  const Matrix gain = prior * h.transpose() * inverse;
  Update out;
  out.mean = gain * read;
  out.covariance = prior - gain * h * prior;
  const Vector weighed = inverse * read;
  out.off = weighed.cwiseQuotient(inverse.diagonal().cwiseSqrt());
  return out;
}

// Loop lengths at which those that were read hang so deep, all others as they do.
std::optional<std::vector<double>> lengths_at(const HungLine& hung, double tension, const std::vector<double>& drops) {
  HungLine line = hung;
  const std::optional<Equilibrium> found = find_lengths({tension, LoopDrop{drops}, false}, line.mesh);
  if (!found || !found->certified()) return std::nullopt;
  return line.loop_lengths();
}

class Loops {
 public:
  Loops(const LineHanger& planned, const HungState& state, const std::vector<DropReading>& drops, const GaugePrior& prior)
      : planned_(planned), state_(state), drops_(drops), prior_(prior) {}

  std::optional<std::vector<GaugedLoop>> find() {
    const std::optional<HungLine> hung = planned_.hang(state_, mesh_of_a_plan());
    if (!hung) return std::nullopt;
    planned_length_ = hung->loop_lengths();
    const bool rings = planned_.rig().backup.joint == Joint::ring;
    const std::optional<Update> update = drops_.empty() ? unread(rings) : rings ? from_rings() : from_tapes(*hung);
    if (!update) return std::nullopt;
    return told(*update, rings);
  }

 private:
  std::size_t bays() const { return planned_length_.size(); }

  Matrix prior_of_lengths() const {
    const Vector length = Eigen::Map<const Vector>(planned_length_.data(), Eigen::Index(bays()));
    Matrix prior = std::pow(prior_.all_loops_sd.value, 2) * length * length.transpose();
    prior.diagonal().array() += std::pow(prior_.loop_sd.value, 2);
    return prior;
  }

  // Of the share that all lengths together are off by.
  Matrix prior_of_share() const {
    const double all = std::accumulate(planned_length_.begin(), planned_length_.end(), 0.0);
    const double each = prior_.loop_sd.value * std::sqrt(double(bays())) / all;
    return Matrix::Constant(1, 1, std::pow(prior_.all_loops_sd.value, 2) + each * each);
  }

  std::optional<Update> unread(bool rings) const {
    const Matrix prior = rings ? prior_of_share() : prior_of_lengths();
    return Update{Vector::Zero(prior.rows()), prior, Vector()};
  }

  std::optional<Update> from_tapes(const HungLine& hung) const {
    std::vector<double> deep = hung.drops(), deeper;
    for (const DropReading& read : drops_) deep[read.bay] = read.drop;
    deeper = deep;
    for (const DropReading& read : drops_) deeper[read.bay] += read.sd.value;
    const auto length = lengths_at(hung, state_.tension, deep), longer = lengths_at(hung, state_.tension, deeper);
    if (!length || !longer) return std::nullopt;
    const auto n = Eigen::Index(drops_.size());
    Matrix h = Matrix::Zero(n, Eigen::Index(bays()));
    Vector read(n), noise(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const std::size_t bay = drops_[std::size_t(i)].bay;
      h(i, Eigen::Index(bay)) = 1.0;
      read(i) = (*length)[bay] - planned_length_[bay];
      noise(i) = std::pow((*longer)[bay] - (*length)[bay], 2);
    }
    return updated(prior_of_lengths(), h, read, noise);
  }

  std::optional<Update> from_rings() const {
    constexpr int kRounds = 3;
    double share = 0.0;
    std::optional<Update> update;
    for (int round = 0; round < kRounds; ++round) {
      const auto here = drops_with(share), beside = drops_with(share + 0.5 * prior_.all_loops_sd.value + 1e-5);
      if (!here || !beside) return std::nullopt;
      const auto n = Eigen::Index(drops_.size());
      Matrix h(n, 1);
      Vector read(n), noise(n);
      for (Eigen::Index i = 0; i < n; ++i) {
        const DropReading& drop = drops_[std::size_t(i)];
        h(i, 0) = ((*beside)[drop.bay] - (*here)[drop.bay]) / (0.5 * prior_.all_loops_sd.value + 1e-5);
        read(i) = drop.drop - (*here)[drop.bay] + h(i, 0) * share;
        noise(i) = std::pow(drop.sd.value, 2);
      }
      update = updated(prior_of_share(), h, read, noise);
      share = update->mean(0);
    }
    return update;
  }

  std::optional<std::vector<double>> drops_with(double share) const {
    std::vector<double> lengths = planned_.rigged().loop_length;
    for (double& length : lengths) length *= 1.0 + share;
    return drops_of(lengths);
  }

  std::optional<std::vector<double>> drops_of(const std::vector<double>& lengths) const {
    LineHanger hanger = planned_;
    hanger.set_loops(lengths);
    const std::optional<HungLine> hung = hanger.hang(state_, mesh_of_a_plan());
    if (!hung) return std::nullopt;
    return hung->drops();
  }

  std::optional<std::vector<GaugedLoop>> told(const Update& update, bool rings) const {
    // Lengths as rigged: the last one lies apart from how it hangs by the main that was pulled in.
    const std::vector<double>& rigged = planned_.rigged().loop_length;
    std::vector<double> found = rigged, sd(bays()), longer;
    for (std::size_t k = 0; k < bays(); ++k) {
      const auto i = Eigen::Index(k);
      found[k] += rings ? update.mean(0) * rigged[k] : update.mean(i);
      sd[k] = std::sqrt(std::max(0.0, rings ? update.covariance(0, 0) : update.covariance(i, i))) * (rings ? rigged[k] : 1.0);
      longer.push_back(found[k] + sd[k]);
    }
    LineHanger hanger = planned_;
    hanger.set_loops(found);
    const std::optional<HungLine> hung = hanger.hang(state_, mesh_of_a_plan());
    const std::optional<std::vector<double>> deeper = drops_of(longer);
    if (!hung || !deeper) return std::nullopt;
    const std::vector<double> drops = hung->drops(), main = main_lengths(*hung);
    std::vector<GaugedLoop> loops(bays());
    for (std::size_t k = 0; k < bays(); ++k) {
      GaugedLoop& loop = loops[k];
      loop.bay = k;
      loop.length = found[k];
      loop.length_sd = sd[k];
      loop.drop = drops[k];
      loop.drop_sd = std::max(0.0, (*deeper)[k] - drops[k]);
      loop.slack = hung->loop_lengths()[k] / main[k] - 1.0;
      loop.slack_sd = sd[k] / main[k];
      loop.let_in = rigged[k] - found[k];
    }
    for (std::size_t i = 0; i < drops_.size(); ++i) {
      loops[drops_[i].bay].read_drop = drops_[i].drop;
      loops[drops_[i].bay].off = update.off(Eigen::Index(i));
    }
    return loops;
  }

  // Stretched length of the main in each bay [m].
  static std::vector<double> main_lengths(const HungLine& hung) {
    std::vector<double> lengths;
    std::size_t node = 0;
    for (std::size_t bay = 0; bay < hung.mesh.line.bays(); ++bay) {
      double length = 0.0;
      for (std::size_t i = 0; i < hung.mesh.line.main_chain(bay).count; ++i, ++node) {
        length += norm(hung.rest[node + 1] - hung.rest[node]);
      }
      lengths.push_back(length);
    }
    return lengths;
  }

  const LineHanger& planned_;
  const HungState& state_;
  const std::vector<DropReading>& drops_;
  const GaugePrior& prior_;
  std::vector<double> planned_length_;
};

}  // namespace

std::optional<std::vector<GaugedLoop>> loops_as_hung(const LineHanger& planned, const HungState& state,
                                                     const std::vector<DropReading>& drops, const GaugePrior& prior) {
  return Loops(planned, state, drops, prior).find();
}

std::vector<double> lengths_of(const std::vector<GaugedLoop>& loops) {
  std::vector<double> lengths;
  for (const GaugedLoop& loop : loops) lengths.push_back(loop.length);
  return lengths;
}

}  // namespace spanloom
