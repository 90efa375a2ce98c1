// The key numbers of the plan, each with what it means.
import type { ComponentChildren } from "preact";
import type { PlanDocument, WalkerPlace } from "../engine/api";
import { text } from "../words/format";
import type { Term } from "../words/terms";
import { Why } from "../words/why";
import { Earlier } from "./earlier";
import { earlierWords, judged } from "./judged";
import "./numbers.css";

type Plan = PlanDocument["plan"];

interface Row {
  label: string;
  of: Term;
  value: string;
  /** Where, or with what. */
  note?: string;
}

/** The walker's place where something is greatest; undefined without places. */
function greatest(places: readonly WalkerPlace[], of: (place: WalkerPlace) => number): WalkerPlace | undefined {
  const worse = (worst: WalkerPlace | undefined, place: WalkerPlace): WalkerPlace => (worst && of(worst) >= of(place) ? worst : place);
  return places.reduce<WalkerPlace | undefined>(worse, undefined);
}

const length = (value_m: number | null): string => text(value_m, "length");

/** "walker at 8.05 m" */
const walkerAt = (place: WalkerPlace | undefined): string => (place ? `walker at ${length(place.position_m)}` : "");

function standing({ standing: line, pull_through: pull }: Plan): Row[] {
  const rows: Row[] = [
    { label: "Tension, near", of: "tension", value: text(line.tension_near_N, "force") },
    { label: "Tension, far", of: "tension", value: text(line.tension_far_N, "force") },
    { label: "Load on the near anchor", of: "anchor load", value: text(line.anchor_near_N, "force") },
    { label: "Load on the far anchor", of: "anchor load", value: text(line.anchor_far_N, "force") },
    { label: "Greatest sag", of: "sag", value: length(line.sag_m), note: `at ${length(line.sag_at_m)} of the gap` },
    { label: "Round trip", of: "round trip", value: text(line.round_trip_s, "time") },
  ];
  if (pull) {
    rows.push({
      label: "Pull-through", of: "pull-through", value: length(pull.length_m),
      note: `from hand-tight ${text(pull.hand_tight_N, "small force")}, where it sags ${length(pull.sag_m)}`,
    });
  }
  return rows;
}

function walking(plan: Plan): Row[] {
  const near = greatest(plan.walker, (place) => place.anchor_near_N);
  const far = greatest(plan.walker, (place) => place.anchor_far_N);
  const sag = greatest(plan.walker, (place) => place.sag_m);
  const pull = greatest(plan.walker, (place) => place.tension_max_N);
  const backup = greatest(plan.walker, (place) => place.backup_tension_max_N);
  const backupNote = backup ? `in bay ${backup.backup_tension_bay}, ${walkerAt(backup)}` : "";
  const force = (value_N: number | undefined): string => text(value_N ?? null, "force");
  const backupPull = text(backup?.backup_tension_max_N ?? null, "small force");
  return [
    { label: "Greatest tension of the main", of: "tension", value: force(pull?.tension_max_N), note: walkerAt(pull) },
    { label: "Load on the near anchor", of: "anchor load", value: force(near?.anchor_near_N), note: walkerAt(near) },
    { label: "Load on the far anchor", of: "anchor load", value: force(far?.anchor_far_N), note: walkerAt(far) },
    { label: "Greatest sag", of: "sag", value: length(sag?.sag_m ?? null), note: walkerAt(sag) },
    { label: "Backup tension", of: "backup tension", value: backupPull, note: backupNote },
  ];
}

function lengths({ standing: line, lengths: pieces }: Plan): Row[] {
  const runs: Row[] = [
    { label: "Main in all", of: "natural length", value: length(line.main_natural_length_m), note: "natural" },
    { label: "Backup in all", of: "natural length", value: length(line.backup_natural_length_m), note: "natural" },
  ];
  const cuts = pieces.map((piece): Row => {
    const ofRun = pieces.filter((other) => other.run === piece.run);
    const which = ofRun.length > 1 ? `, piece ${ofRun.indexOf(piece) + 1}` : "";
    const run = piece.run === "main" ? "Main" : "Backup";
    return { label: `${run}${which}: cut`, of: "cut length", value: length(piece.cut_length_m),
      note: `${piece.webbing}, ${length(piece.natural_length_m)} natural` };
  });
  return [...runs, ...cuts];
}

function Table({ caption, rows, children }: { caption: string; rows: readonly Row[]; children?: ComponentChildren }) {
  return (
    <table class="numbers">
      <caption>{caption}</caption>
      <tbody>
        {rows.map((row) => (
          <tr key={row.label}>
            <th scope="row">{row.label} <Why of={row.of} /></th>
            <td><span class="numbers-value">{row.value}</span>{row.note && <span class="numbers-note">{row.note}</span>}</td>
          </tr>
        ))}
        {children}
      </tbody>
    </table>
  );
}

/** "2.5 × 10⁻⁷" */
function powerOfTen(value: number): string {
  const [digits, power] = value.toExponential(1).split("e");
  const raise = (sign: string): string => (sign === "-" ? "⁻" : ("⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(sign)] ?? ""));
  const raised = [...(power ?? "0").replace("+", "")].map(raise).join("");
  return value === 0 ? "0" : `${digits}\u00a0×\u00a010${raised}`;
}

/** How near to rest the computed line is. */
function proof(plan: Plan): Row[] {
  const { residual_N, greatest_force_N, iterations } = plan.standing.certificate;
  return [
    {
      label: "Greatest unbalanced force", of: "certificate",
      value: `${powerOfTen(residual_N)}\u00a0N`,
      note: `beside ${text(greatest_force_N, "force")} in the line, after ${iterations} ${iterations === 1 ? "step" : "steps"}`,
    },
  ];
}

export function Numbers() {
  const plan = judged.value?.document.plan;
  if (!plan) return <p>There are no numbers yet.</p>;
  return (
    <>
      {earlierWords.value !== "" && <p class="lead">These are <Earlier />.</p>}
      <Table caption="Standing, nobody on the line" rows={standing(plan)} />
      <Table caption="With the worst place of a walker" rows={walking(plan)} />
      <Table caption="Lengths" rows={lengths(plan)} />
      <Table caption="How exactly it is computed, standing" rows={proof(plan)} />
    </>
  );
}
