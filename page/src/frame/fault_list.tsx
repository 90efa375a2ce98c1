// What is wrong with the files: a bar at the top of the page, and a list whose rows lead to the place.
import { signal } from "@preact/signals";
import type { FileFault } from "../engine/api";
import { faults, trouble, view } from "../state/rig";
import { FileButton } from "./file_button";
import { missingNames } from "./file_kinds";
import { takeAs } from "./opening";
import { SectionLink } from "./section";
import "./fault_list.css";

/** Where the editor is to go; each request is an object of its own, so that the same place can be asked for twice. */
export const asked = signal<{ fault: FileFault } | null>(null);

const counted = (count: number): string => (count === 1 ? "1 fault" : `${count} faults`);

/** Says at the top that the picture is not of the text. Empty while all is well. */
export function FaultBar() {
  const count = faults.value.length;
  const last = view.value ? "The picture is of the last good text." : "There is no picture yet.";
  return (
    <div role="status" class="fault-status">
      {count > 0 && (
        <p class="fault-bar">
          <strong>The file has {counted(count)}.</strong> {last} <SectionLink to="file">Go to the rig file</SectionLink>
        </p>
      )}
      {count === 0 && trouble.value !== "" && (
        <p class="fault-bar"><strong>There is no answer for this rig.</strong> {trouble.value} {last}</p>
      )}
    </div>
  );
}

function Missing() {
  return (
    <>
      {missingNames(faults.value).map((name) => (
        <p key={name} class="fault-missing">
          The file {name} is missing.{" "}
          <FileButton onFiles={([file]) => file && void takeAs(name, file)}>Add file {name}</FileButton>
        </p>
      ))}
    </>
  );
}

/** Without the place, which stands before it. */
function sentence(fault: FileFault): string {
  const cure = fault.cure === "" ? "" : ` (${fault.cure})`;
  return `${fault.key === "" ? "" : `${fault.key}: `}read ${fault.read}, expected ${fault.expected}${cure}`;
}

/** @param rigName the name of the rig file, which is not repeated in each row */
export function FaultList({ rigName }: { rigName: string }) {
  if (faults.value.length === 0) return null;
  return (
    <div class="fault-list">
      <Missing />
      <ol>
        {faults.value.map((fault) => (
          <li key={fault.words}>
            <button type="button" class="fault-row" onClick={() => (asked.value = { fault })}>
              <strong>{fault.file === rigName ? "" : `${fault.file}, `}line {fault.line}, column {fault.column}</strong>:{" "}
              {sentence(fault)}
            </button>
          </li>
        ))}
      </ol>
    </div>
  );
}
