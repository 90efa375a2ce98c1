// The sheet that the crew rigs from: looked at, printed, saved.
import { faults, files, settled, trouble } from "../state/rig";
import { download } from "./opening";
import { lastPages, pages, sheetTrouble } from "./sheet_pages";
import "./sheet.css";

const pageName = (index: number, count: number): string => `Page ${index + 1} of ${count} of the sheet`;

/** "heron-gorge-sheet-1.svg" */
const fileName = (index: number): string => `${files.value.name.replace(/\.[^.]*$/, "")}-sheet-${index + 1}.svg`;

const save = (index: number, svg: string): void => download(fileName(index), svg, "image/svg+xml");

/** What the browser prints: these pages and nothing else. Out of sight on the screen. Stands once on the page. */
export function PrintedPages() {
  const ready = pages.value;
  return (
    <div class="printed" aria-hidden="true">
      {ready
        ? ready.addresses.map((address) => <img key={address} class="printed-page" src={address} alt="" />)
        : <p class="printed-none">{wait()} Nothing else of this page is printed.</p>}
    </div>
  );
}

/** Prints once every page can be painted. */
async function printPages(): Promise<void> {
  const images = [...document.querySelectorAll<HTMLImageElement>(".printed-page")];
  await Promise.allSettled(images.map((image) => image.decode()));
  window.print();
}

function wait(): string {
  if (sheetTrouble.value !== "") return sheetTrouble.value;
  if (faults.value.length > 0 || trouble.value !== "") return "No sheet can be made of the rig file as it stands.";
  return settled.value ? "The sheet is being made." : "The sheet is made when the plan is finished.";
}

export function Sheet() {
  const ready = pages.value;
  const last = ready ?? lastPages.value;
  return (
    <>
      <p class="lead">
        <button type="button" class="button strong" disabled={!ready} onClick={() => void printPages()}>
          Print the sheet
        </button>{" "}
        <span role="status">{ready ? `${ready.addresses.length} pages, A4, black and white.` : wait()}</span>
      </p>
      <div class={ready ? "sheet" : "sheet sheet-stale"}>
        {last?.addresses.map((address, index) => (
          <figure key={address} class="sheet-page">
            <img src={address} alt={pageName(index, last.addresses.length)} />
            <figcaption>
              <button type="button" class="button" disabled={!ready} onClick={() => save(index, last.svgs[index] ?? "")}>
                Save page {index + 1} as SVG
              </button>
            </figcaption>
          </figure>
        ))}
      </div>
    </>
  );
}
