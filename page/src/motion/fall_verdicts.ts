// The last search of falls that came to its end, and its checks for the rest of the page.
import { computed, signal, type ReadonlySignal } from "@preact/signals";
import type { CatchDocument, Check, RigFiles, Units } from "../engine/api";
import { files, opened } from "../state/rig";
import { units } from "../state/units";

/** A search that came to its end, and of what. */
interface Searched {
  of: RigFiles;
  /** Counts the rigs that were opened: of which one. */
  rig: number;
  /** Units of the engine's sentences. */
  units: Units;
  found: CatchDocument;
  /** How long it took [s]. */
  took_s: number;
}

const last = signal<Searched | null>(null);

/** The last search of the rig that is open; null: none came to its end. */
export const searched = computed(() => (last.value?.rig === opened.value ? last.value : null));

/** True where the rig has changed since the search. */
export const searchStale = computed(() => searched.value !== null && searched.value.of !== files.value);

/** True where the engine's sentences are in other units than the page. */
export const searchUnitsStale = computed(() => searched.value !== null && searched.value.units !== units.value);

/** The checks of falls of the files as they stand; null where no search of them came to its end. */
export const fallChecks: ReadonlySignal<readonly Check[] | null> = computed(() =>
  searched.value !== null && !searchStale.value ? searched.value.found.catch.checks : null,
);

export function tellSearched(done: Searched): void {
  last.value = done;
}
