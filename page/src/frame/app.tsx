// Everything that stands on the page, in its order.
import { useEffect } from "preact/hooks";
import { FallBrief } from "../motion/fall_brief";
import { FallStage } from "../motion/fall_stage";
import { ShakeStage } from "../motion/shake_stage";
import { BayTable } from "../picture/bay_table";
import { LineView } from "../picture/line_view";
import { ReturnSummary } from "../picture/return_summary";
import { files, trouble, view } from "../state/rig";
import { WhyDialog } from "../words/why";
import { CautionLine, Cautions } from "./cautions";
import { Checks, ChecksBrief } from "./checks";
import { Dialogs } from "./dialogs";
import { DropHint } from "./drop";
import { FaultBar } from "./fault_list";
import { Header, title } from "./header";
import { Numbers } from "./numbers";
import { RigFile } from "./rig_file";
import { Section } from "./section";
import { PrintedPages, Sheet } from "./sheet";
import { hurrySheet } from "./sheet_pages";
import { engineTrouble } from "./start";
import { Values } from "./values";
import { VerdictBar } from "./verdict_bar";

/** Said when the engine cannot run, or went wrong while it ran. */
function EngineTrouble() {
  return (
    <div class="waiting" role="alert">
      <h2>{view.value === null ? "The engine does not run" : "Something went wrong in the engine"}</h2>
      <p>{engineTrouble.value}</p>
      {view.value === null
        ? <p>The page needs WebAssembly and workers, which a browser of 2023 or later has. Try another browser.</p>
        : <p>What stands here may no longer be of this rig. Save the rig file, close the page and open it again.</p>}
    </div>
  );
}

/** Said while there is no picture. */
function Waiting() {
  if (engineTrouble.value !== "") return <EngineTrouble />;
  if (view.value !== null || trouble.value !== "") return null;
  return <p class="waiting" role="status">The engine starts. The plan of {files.value.name} comes in a moment.</p>;
}

const wide = matchMedia("(min-width: 62rem)");

function Sections() {
  return (
    <div class="columns">
      <div class="column">
        <Section id="values" title="Values" brief="tension, slack, walker, gap, wind" startsOpen={wide.matches}>
          {() => <Values />}
        </Section>
        <Section id="checks" title="Checks" brief={<ChecksBrief />} startsOpen={wide.matches}>{() => <Checks />}</Section>
        <Section id="numbers" title="Numbers" brief="tension, loads, sag, lengths to cut">{() => <Numbers />}</Section>
        <Section id="bays" title="Bays" brief="places, lengths, drops, slack">{() => <BayTable />}</Section>
      </div>
      <div class="column">
        <Section id="shake" title="Shake it" brief="one shake of your choice, in motion">{() => <ShakeStage />}</Section>
        <Section id="fall" title="Let it fall" brief={<FallBrief />}>{() => <FallStage />}</Section>
        <Section id="file" title="Rig file" brief={files.value.name} startsOpen={wide.matches}>{() => <RigFile />}</Section>
        <Section id="sheet" title="Sheet to print" brief="A4, for the crew" onFirstOpen={hurrySheet}>
          {() => <Sheet />}
        </Section>
        <Section id="cautions" title="Cautions" brief="a planning aid, not a certificate">{() => <Cautions />}</Section>
      </div>
    </div>
  );
}

export function App() {
  const rig = title();
  useEffect(() => {
    document.title = rig === "" ? "Spanloom" : `${rig} - Spanloom`;
  }, [rig]);
  return (
    <>
      <a class="skip" href="#line">Skip to the line</a>
      <Header>
        <CautionLine />
        <FaultBar />
      </Header>
      <VerdictBar />
      <main id="line" tabIndex={-1}>
        <Waiting />
        {view.value !== null && (
          <>
            <h2 class="visually-hidden">The line</h2>
            <LineView />
            <ReturnSummary />
          </>
        )}
        <Sections />
      </main>
      <footer class="footer">
        Spanloom{view.value && ` ${view.value.document.version}`}. Works without a network; nothing leaves this page.
      </footer>
      <PrintedPages />
      <DropHint />
      <Dialogs />
      <WhyDialog />
    </>
  );
}
