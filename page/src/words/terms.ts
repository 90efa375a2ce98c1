// What the numbers mean, in plain words. Every fact is from docs/*.md; nothing is known here that the engine does not do.

export type Term =
  | "return" | "energy share" | "drop" | "ankle margin" | "slack" | "sag" | "tension" | "anchor load" | "clearance"
  | "natural length" | "cut length" | "round trip" | "fall" | "body force" | "verdict" | "arm span" | "pull-through"
  | "backup tension" | "certificate";

export interface Meaning {
  /** The question that the button asks. */
  ask: string;
  what: string;
  how: string;
  good: string;
  limits: string;
}

/** One plain explanation a term. */
export const terms: Record<Term, Meaning> = {
  return: {
    ask: "What is the return?",
    what:
      "How much of a shake's swing the main still has two round trips later. 0 % means that the line has calmed, " +
      "50 % that half of the swing is back.",
    how:
      "The line is shaken once at one place, with one frequency. The swing of the whole main is measured while it " +
      "is shaken and again two round trips later, over the same while; the second over the first is the return. " +
      "The number shown is the mean over ten frequencies from 0.5 to 4 Hz at 15 %, 35 % and 50 % of the gap.",
    good:
      "Less is calmer. Compare with the same line evenly taped. Loops that hang alike swing alike, and what they " +
      "took comes back together; loops that differ give it back at different times, and the swing dies away.",
    limits:
      "Loops that go slack and snap tight have no exact answer. Single shakes differ by some points, so read the " +
      "mean first and take less than three points as no difference. Flutter and twist of the webbing are not " +
      "computed. Hands that tape less exactly than the plan change it too.",
  },
  "energy share": {
    ask: "What is the energy share?",
    what: "How much of the energy that was put into the main is moving in the main, in the direction of the shake.",
    how:
      "Twice the mean energy of motion of the main, two round trips later, over the energy that the shake put in: " +
      "twice, because in a swing half of the energy is in motion on average. The picture of a shake shows the " +
      "energy of motion as it goes, counted once.",
    good: "A share that falls and stays low: the loops and the air have taken the energy and do not hand it back.",
    limits:
      "It rises and falls within every swing, since energy goes to and fro between motion and stretch. Look at the " +
      "course, not at one moment.",
  },
  drop: {
    ask: "What is the drop?",
    what: "The greatest vertical distance between the main and the loop of backup below it, with nobody on the line.",
    how:
      "From the shape of main and loop at rest. A bay's drop follows from its length and from how much backup " +
      "hangs in it.",
    good:
      "At least the least drop that the rig file asks for: 60 mm if it does not say. Drops that differ from bay to " +
      "bay calm a line that is taped exactly; drops that are all alike swing together.",
    limits:
      "A little more backup makes much more drop: 1 % of a loop with 1.5 % slack changes its drop by about a " +
      "third. Tape carefully.",
  },
  "ankle margin": {
    ask: "What is the ankle margin?",
    what:
      "How far the loop hangs below the main at the foot of a walker who stands in the middle of the bay. " +
      "Negative: the backup rides up at the ankles.",
    how: "The line at rest under the walker's weight. The foot presses the main down, and the loop beside it comes up.",
    good: "Above the least margin that the rig file asks for: 0 mm if it does not say.",
    limits: "It is for a walker who stands still. A walker who bounces, or a gust, moves loops farther.",
  },
  slack: {
    ask: "What is the slack?",
    what: "How much longer the loop of backup is than the main above it, as a share of the main's length in that bay.",
    how: "Unloaded length of the loop over the length of the standing main in its bay, less one.",
    good:
      "Enough to hang clear of the foot, and not more than needed: more slack means a longer fall when the main " +
      "fails, less means a smaller ankle margin.",
    limits:
      "Another slack means that the backup is cut anew. When a tape is taken out or moved, the backup keeps the " +
      "lengths that it was cut to.",
  },
  sag: {
    ask: "What is the sag?",
    what: "How far the main hangs below the straight line from anchor to anchor.",
    how:
      "From the line at rest: weights of webbing, loops and walker against the tension, with the stretch of the " +
      "webbing as it was measured.",
    good:
      "No value is good in itself. Less sag means more tension in everything; more sag means less room over the " +
      "ground.",
    limits: "No better than the pull test of the webbing. Creep and wear are not computed.",
  },
  tension: {
    ask: "What is the tension?",
    what: "The pull along the main. The standing tension is that at the near anchor with nobody on the line.",
    how:
      "The plan finds the length of main that comes to the tension you ask for, or the tension of the length that " +
      "you give. Then it rests a walker at every place, one by one.",
    good:
      "Strength left at the ends over greatest tension must be at least the ratio that the rig file asks for: 3 if " +
      "it does not say.",
    limits:
      "Standing still only. A walker who bounces, a gust or a fall pulls more; the falls are computed on their own.",
  },
  "anchor load": {
    ask: "What is the anchor load?",
    what: "The whole pull on one anchor: main and backup together, as one force.",
    how:
      "The forces of main and backup at that end, added with their directions. The worst walker stands where the " +
      "anchor is loaded most; the check also counts two people on the line, and wind.",
    good:
      "Strength of the anchor over its greatest load must be at least the ratio that the rig file asks for: 2.5 if " +
      "it does not say.",
    limits:
      "It is what the line pulls, not what rock, tree or bolt can bear: have anchors checked by a competent " +
      "rigger. Falls load anchors too; see Let it fall.",
  },
  clearance: {
    ask: "What is the clearance?",
    what:
      "The room between the line and the ground below it: of main and loops, of the foot, and of a body that hangs " +
      "still on the leash.",
    how:
      "Straight down to the ground that you gave, with the walker at every tape and in the middle of every bay, " +
      "and for two people and wind too.",
    good: "At least the reserve that the rig file asks for, outside the anchor zones: 2 m if it does not say.",
    limits:
      "It is only as good as the ground you measured. Without a ground nothing is checked. A falling body needs " +
      "more than one that hangs still; see Let it fall.",
  },
  "natural length": {
    ask: "What is the natural length?",
    what: "The length of webbing under no load, as you measure it on the ground.",
    how:
      "The plan finds how long main and loops must be, unloaded, so that tension and slack or drop come out as " +
      "asked.",
    good: "Places of tapes are counted in natural lengths along the main, from the end of the near hardware.",
    limits: "Webbing that was loaded before, or is wet, may lie longer. One measured curve stands for all of it.",
  },
  "cut length": {
    ask: "What is the cut length?",
    what: "How long to cut a piece: its natural length and the tails beyond both ends.",
    how:
      "Natural length plus the tails of the rig file. Where the near tail of the main is shorter than what is " +
      "pulled through and 1 m to grip, the piece is cut that much longer.",
    good: "Measure twice. Tails and knots of your own way of rigging go into the rig file.",
    limits: "What a knot or a clamp takes up is not known here, unless it is in the tail.",
  },
  "round trip": {
    ask: "What is the round trip?",
    what: "The time that a wave on the main takes to the far anchor and back.",
    how:
      "Twice the gap divided by the speed of the wave. The square of that speed is the standing tension divided by " +
      "the mass of main and backup per metre of gap.",
    good: "No value is good in itself. It is the clock of a shake: the return is measured two round trips later.",
    limits:
      "It takes the backup as mass spread evenly along the main. Real loops swing by themselves and scatter waves.",
  },
  fall: {
    ask: "What is the fall?",
    what: "How far the hip goes down, from standing on the line to the lowest point.",
    how:
      "The whole line moves with a body, a leash and a ring. Either the main fails under the walker, or the walker " +
      "steps off into the leash. Where it is not known what tears a tape, tapes that hold and tapes that tear are " +
      "both computed and the worse counts.",
    good: "Short, and never near the ground: the clearance at the lowest feet must keep the reserve.",
    limits:
      "A search over a grid, not a proof: between its places it may be a little worse. Falls of tame cases agree " +
      "to 1 to 3 % between two meshes. The body hitting line, rock or ground is not computed.",
  },
  "body force": {
    ask: "What is the body force?",
    what: "The greatest force that the leash puts on the body in a catch.",
    how:
      "The pull of the leash as a dynamometer would show it: peaks shorter than some milliseconds are taken out, " +
      "as fall tests do (45 Hz low-pass).",
    good:
      "Less than the limit of the rig file. If it does not say, our default is 6 kN, borrowed from work at height " +
      "(EN 363 and EN 355, from memory): it was not made for highlines, and we know of none that was.",
    limits:
      "A few per cent in tame cases. When the main fails at an anchor and the tapes tear, the loose main may tug " +
      "at the ring: take such forces as \"can happen\", not as values.",
  },
  verdict: {
    ask: "What do the verdicts mean?",
    what:
      "Every check compares a value with a limit. Ok: the limit is kept, and all it rests on was stated by you. " +
      "Caution: there is something to know, something could not be known, or the check rests on a value that we " +
      "assumed. Stop: the limit is broken. Not known, beside a caution: something that the check needs is missing, " +
      "such as the ground or the strength of an anchor.",
    how:
      "The engine computes the value, takes the limit from the rig file, or our default, and says which. The worst " +
      "of all checks stands at the top. Falls are counted in once \u201cLook for the worst\u201d in Let it fall has come " +
      "to its end for the rig as it stands; until then the page says that falls were not looked at.",
    good: "No stop, every caution read and understood, what was not known found out, and falls looked at.",
    limits: "A check that is ok is not a certificate. It says that a number keeps a limit, for the webbing data given.",
  },
  "arm span": {
    ask: "What is an arm span?",
    what: "Finger tip to finger tip of whoever lays out the line: the measure that most crews have with them.",
    how: "Lengths of bays over the arm span of the rig file: 1.7 m if it does not say.",
    good: "Measure the arm span of the one who tapes, holding webbing as they do on the day.",
    limits: "Nobody's arm span is exact. Counted off along a line its error is the same each time and adds up.",
  },
  "pull-through": {
    ask: "What is the pull-through?",
    what:
      "How much webbing goes through the tensioning system, from a line pulled tight by hand to the standing " +
      "tension.",
    how:
      "Length of main at the hand-tight tension (300 N if the rig file does not say) less its length at the " +
      "standing tension.",
    good: "Plan room for it: it must fit between the near anchor and what holds the webbing.",
    limits: "Which end of the backup is let out meanwhile hardly changes it. Slip and creep are not in it.",
  },
  "backup tension": {
    ask: "What is the backup tension?",
    what: "The greatest pull in the backup while the main holds, in any bay and with the walker anywhere.",
    how:
      "From the line at rest. Loops hang as a counterweight below the main and carry little more than their own " +
      "weight.",
    good:
      "Under the limit of the rig file: 300 N if it does not say. More means that a loop is pulled straight and " +
      "carries load.",
    limits: "When the main fails the backup carries everything; that is in Let it fall.",
  },
  certificate: {
    ask: "How exactly is it computed?",
    what:
      "How far the forces of the computed line are from balance, found again from the places alone. It is about " +
      "arithmetic, not about safety.",
    how:
      "At rest: the greatest unbalanced force on any node, held below a billionth of the greatest force or what " +
      "rounding makes of it, and a bound on the energy. In motion: all energies summed on their own must add up to " +
      "a thousandth of what was put in, or of what a fall turned over.",
    good: "If it does not hold there is no number, and the page says why.",
    limits:
      "It shows that the sum is right for the line as described. It says nothing about the webbing, the anchors or " +
      "the description.",
  },
};
