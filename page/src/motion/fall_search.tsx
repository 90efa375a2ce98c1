// The worst falls along the line: a long search, and a table to play from.
import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Verdict } from "../engine/api";
import { settled } from "../state/rig";
import { text } from "../words/format";
import { longestFall_s, type FallStageState } from "./fall_films";
import { rowWords, shortWords } from "./fall_words";
import { StaleNote } from "./stale_note";
import { askedOfRow, foundIn, playsOther, type ToldFall, type ToldFalls } from "./told_falls";
import { WorkBar } from "./work_bar";

interface Props {
  stage: FallStageState;
  /** Called when a row's film is there. */
  played: () => void;
}

/** "Look for the worst", and what was found. */
export function FallSearch({ stage, played }: Props) {
  const searched = stage.searched.value;
  const cannot = !settled.value || stage.search.running.value;
  const look = (): void => void stage.lookForWorst();
  return (
    <section class="fall-search">
      <h3>The worst along the line</h3>
      <p class="fall-small">
        Walkers all along the line; the main fails at anchors, at connectors and beside the walker, with tapes that hold
        and tapes that tear; walkers step off into the leash. It takes minutes, and longer on a phone; the rest of the
        page goes on meanwhile. It is a search over a grid: between its places it may be a little worse.
      </p>
      <button type="button" class="button motion-go" disabled={cannot} onClick={look}>Look for the worst</button>
      <WorkBar work={stage.search} doing="Letting fall" />
      <StaleNote stale={stage.searchStale.value} words="Look again on the line as it is now" again={look} cannot={cannot} />
      {searched && <Found stage={stage} played={played} />}
    </section>
  );
}

const verdictWords: Record<Verdict, string> = { ok: "Ok", caution: "Caution", stop: "Stop" };

function Found({ stage, played }: Props) {
  const searched = stage.searched.value;
  const found = useMemo(() => (searched ? foundIn(searched.found) : null), [searched]);
  if (!found) return null;
  const stops = found.checks.filter(({ verdict }) => verdict === "stop").length;
  return (
    <>
      <div role="status">
        The search is done: {found.mainFailure.rows.length + found.leashFall.rows.length} of the worst falls are
        listed, and {stops} of their {found.checks.length} checks say stop.
      </div>
      <Falls title="The main fails, greatest force on the body first" falls={found.mainFailure} stage={stage} played={played} />
      <Falls title="Into the leash, greatest force on the body first" falls={found.leashFall} stage={stage} played={played} />
      <p class="fall-small">
        In what is played the ring runs and nobody sits: where a row says otherwise, its values may be worse than the
        film.
      </p>
      <details class="motion-table">
        <summary>The checks of falls: {stops} of {found.checks.length} say stop</summary>
        <ul class="fall-checks">
          {found.checks.map(({ title, verdict, words }, index) => (
            <li key={index}><strong class={`fall-verdict fall-${verdict}`}>{verdictWords[verdict]}</strong> {title}: {words}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

const firstRows = 6;
const columns = ["Play", "What", "On the body", "Fall", "Clearance", "Near anchor", "Far anchor", "Worst of all by"];

function Falls({ title, falls, stage, played }: Props & { title: string; falls: ToldFalls }) {
  const all = useSignal(false);
  const { rows } = falls;
  if (rows.length === 0) return <p>{title}: none.</p>;
  return (
    <>
      <h4>{title}</h4>
      <div class="motion-scroll" role="region" aria-label={title} tabIndex={0}>
        <table>
          <thead>
            <tr>
              {columns.map((name) => <th key={name} scope="col">{name}</th>)}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (all.value || index < firstRows) && (
              <Row key={index} row={row} worstBy={falls.worstBy[index] ?? []} stage={stage} played={played} />
            ))}
          </tbody>
        </table>
      </div>
      {rows.length > firstRows && !all.value && (
        <button type="button" class="button" onClick={() => (all.value = true)}>Show all {rows.length}</button>
      )}
    </>
  );
}

function Row({ row, worstBy, stage, played }: Props & { row: ToldFall; worstBy: string[] }) {
  const play = (): void => void stage.letFall(askedOfRow(row, longestFall_s)).then((there) => there && played());
  const cannot = stage.searchStale.value || stage.work.running.value;
  return (
    <tr>
      <td><button type="button" class="button" disabled={cannot} aria-label={`Play: ${rowWords(row)}`} onClick={play}>Play</button></td>
      <th scope="row">{shortWords(row)}{playsOther(row) && " (not so in the film)"}</th>
      {row.lost ? <td colSpan={3}>nothing holds the walker</td> : (
        <>
          <td>{text(row.body_N, "force")}</td>
          <td>{text(row.fall_m, "length")}</td>
          <td>{row.clearance_m !== null && row.clearance_m < 0 ? "hits the ground" : text(row.clearance_m, "length")}</td>
        </>
      )}
      <td>{text(row.near_N, "force")}</td>
      <td>{text(row.far_N, "force")}</td>
      <td>{worstBy.join(", ")}</td>
    </tr>
  );
}
