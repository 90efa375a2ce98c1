// The worst falls along the line: a long search, and a table to play from.
import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { CatchFall } from "../engine/api";
import { VerdictWord, worst } from "../frame/verdict";
import { settled } from "../state/rig";
import { text } from "../words/format";
import { CheckLines } from "./check_lines";
import { longestFall_s, type FallStageState } from "./fall_films";
import { rowWords, shortWords } from "./fall_words";
import { StaleNote } from "./stale_note";
import { askedOfRow, foundIn, playsOther, worstChecksFirst, type Ending, type ToldRow } from "./told_falls";
import { WorkBar } from "./work_bar";
import { durationWords } from "./work";

interface Props {
  stage: FallStageState;
  /** Called when a row's film is there. */
  played: () => void;
}

/** How long it takes, as far as one can know. */
function howLong(took_s: number | undefined): string {
  if (took_s !== undefined) return `It took ${durationWords(took_s)} the last time.`;
  return "It takes about 20 seconds for a line of 16 m and some minutes for one of 60 m, and longer on a phone.";
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
        and tapes that tear; walkers step off into the leash. {howLong(searched?.took_s)} The rest of the page goes on
        meanwhile. It is a search over a grid: between its places it may be a little worse.
      </p>
      <button type="button" class="button motion-go" disabled={cannot} onClick={look}>Look for the worst</button>
      <WorkBar work={stage.search} doing="Letting fall" />
      <StaleNote why={stage.searchAgain.value} words="Look again" again={look} cannot={cannot} />
      {searched && <Found stage={stage} played={played} />}
    </section>
  );
}

function Found({ stage, played }: Props) {
  const document = stage.searched.value?.found;
  const found = useMemo(() => (document ? foundIn(document) : null), [document]);
  if (!document || !found) return null;
  const { checks } = document.catch;
  const stops = checks.filter(({ verdict }) => verdict === "stop");
  const verdict = worst(checks);
  return (
    <>
      <div role="status">
        {verdict && <VerdictWord verdict={verdict} />} The search is done: {stops.length} of {checks.length} checks of falls
        say stop. The worst {found.mainFailure.length + found.leashFall.length} falls are listed.
      </div>
      <CheckLines checks={worstChecksFirst(stops)} />
      <details class="motion-table">
        <summary>All {checks.length} checks of falls</summary>
        <CheckLines checks={worstChecksFirst(checks)} />
      </details>
      <Falls title="The main fails" rows={found.mainFailure} stage={stage} played={played} />
      <Falls title="Into the leash" rows={found.leashFall} stage={stage} played={played} />
      <p class="fall-small">
        First who is not held and who hits something, then by force on the body. Clearance is not known where no ground
        is given or where the walker starts in an anchor zone. In what is played the ring runs and nobody sits: where a row
        says otherwise, its values may be worse than the film.
      </p>
    </>
  );
}

const firstRows = 6;
const columns = ["Fall", "Body", "Falls", "Clearance", "Near anchor", "Far anchor"];

function Falls({ title, rows, stage, played }: Props & { title: string; rows: readonly ToldRow[] }) {
  const all = useSignal(false);
  if (rows.length === 0) return <p>{title}: none.</p>;
  return (
    <>
      <h4>{title}</h4>
      <div class="motion-scroll" role="region" aria-label={title} tabIndex={0}>
        <table class="fall-table">
          <thead>
            <tr>
              {columns.map((name) => <th key={name} scope="col">{name}</th>)}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (all.value || index < firstRows) && <Row key={index} row={row} stage={stage} played={played} />)}
          </tbody>
        </table>
      </div>
      {rows.length > firstRows && !all.value && (
        <button type="button" class="button" onClick={() => (all.value = true)}>Show all {rows.length}</button>
      )}
    </>
  );
}

const endingWords: Record<Exclude<Ending, "held">, string> = {
  lost: "nothing holds the walker",
  "hits the ground": "hits the ground",
  "hits ground or wall": "swings into ground or wall",
};

function Row({ row: { fall, ending, worstBy }, stage, played }: Props & { row: ToldRow }) {
  const play = (): void => void stage.letFall(askedOfRow(fall, longestFall_s)).then((there) => there && played());
  const cannot = stage.searchStale.value || stage.work.running.value || !settled.value;
  return (
    <tr>
      <th scope="row">
        {ending !== "held" && <div><VerdictWord verdict="stop" /> <strong>{endingWords[ending]}</strong></div>}
        {shortWords(fall)}{playsOther(fall) && " (not so in the film)"}
        {worstBy.length > 0 && <div class="fall-worst">Worst of all by {worstBy.join(", ")}</div>}
        <button type="button" class="button" disabled={cannot} aria-label={`Play: ${rowWords(fall)}`} onClick={play}>Play</button>
      </th>
      <Caught fall={fall} />
      <td>{text(fall.near_N, "force")}</td>
      <td>{text(fall.far_N, "force")}</td>
    </tr>
  );
}

function Caught({ fall }: { fall: CatchFall }) {
  if (fall.lost) return <td colSpan={3}>not held</td>;
  const { clearance_m } = fall;
  return (
    <>
      <td>{text(fall.body_N, "force")}</td>
      <td>{text(fall.fall_m, "length")}</td>
      <td class="fall-clearance">{clearance_m === null ? "not known" : text(clearance_m, "length")}</td>
    </>
  );
}
