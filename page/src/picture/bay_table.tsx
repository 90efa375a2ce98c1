// Every bay as a row: for those who do not see the picture, and for fingers larger than a bay.
import type { JSX } from "preact";
import "./bay_table.css";
import type { Bay } from "../engine/api";
import { view } from "../state/rig";
import { number, shown, text } from "../words/format";
import { chosen } from "./state";
import { choose, takeOut } from "./tapes";

function Row({ bay, from_m, last, short }: { bay: Bay; from_m: number; last: boolean; short: boolean }): JSX.Element {
  const tape = bay.number;
  const inHand = chosen.value;
  const mine = inHand !== null && (inHand.kind === "tape" ? inHand.tape === tape : inHand.bay === bay.number);
  const words = mine ? (inHand.kind === "tape" ? "tape in hand" : "in hand") : "";
  return (
    <tr class={mine ? "bay-table-mine" : ""} aria-current={mine ? "true" : undefined}>
      <th scope="row">{bay.number}{words !== "" && <span class="bay-table-word"> {words}</span>}</th>
      <td>{number(from_m, "length")} to {number(bay.running_length_m, "length")}</td>
      <td>{number(bay.main_natural_m, "length")}</td>
      <td>{bay.arm_spans.toFixed(2)}</td>
      <td>{number(bay.backup_natural_m, "length")}</td>
      <td>{number(bay.drop_m, "small length")}</td>
      <td>{text(bay.slack, "share")}</td>
      <td>{number(bay.ankle_margin_m, "small length")}{short && <span class="bay-table-word"> too little</span>}</td>
      <td>
        {!last && (
          <>
            <button type="button" class="button" onClick={() => choose(tape)}>Tape {tape}</button>
            <button type="button" class="button" onClick={() => void takeOut(tape)}>Take out tape {tape}</button>
          </>
        )}
      </td>
    </tr>
  );
}

export function BayTable(): JSX.Element | null {
  const now = view.value;
  if (!now) return null;
  const { bays } = now.document.plan;
  const length = shown("length").unit;
  const small = shown("small length").unit;
  return (
    <div class="bay-table" role="region" aria-label="Bays" tabIndex={0}>
      <table>
        <caption>Bays from the near anchor. Lengths are of webbing under no load; places are measured along the main.</caption>
        <thead>
          <tr>
            <th scope="col">Bay</th>
            <th scope="col">From, to [{length}]</th>
            <th scope="col">Main [{length}]</th>
            <th scope="col">Arm spans</th>
            <th scope="col">Backup [{length}]</th>
            <th scope="col">Drop [{small}]</th>
            <th scope="col">Slack</th>
            <th scope="col">Ankle margin [{small}]</th>
            <th scope="col">Tape behind it</th>
          </tr>
        </thead>
        <tbody>
          {bays.map((bay, i) => (
            <Row
              key={bay.number} bay={bay} from_m={bays[i - 1]?.running_length_m ?? 0} last={i === bays.length - 1}
              short={bay.ankle_margin_m < now.picture.least_ankle_margin_m}
            />
          ))}
        </tbody>
      </table>
    </div>
  );
}
