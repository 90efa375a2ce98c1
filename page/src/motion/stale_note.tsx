// Says that what is shown is of the line as it was.

interface Props {
  /** Why it is to be run again; empty where nothing has changed. */
  why: string;
  /** What the button does. */
  words: string;
  cannot: boolean;
  again: () => void;
}

/** Of the same rig only: what was of another one is taken away when a rig is opened. */
export const lineHasChanged = "The line has changed: this is of the line as it was before.";

/** A note with the way to run it again. */
export function StaleNote({ why, words, cannot, again }: Props) {
  return (
    <div role="status">
      {why !== "" && (
        <div class="motion-stale">
          <p>{why}</p>
          <button type="button" class="button" disabled={cannot} onClick={again}>{words}</button>
        </div>
      )}
    </div>
  );
}
