// Says that what is shown is of the line before the last change.

interface Props {
  stale: boolean;
  /** What the button does. */
  words: string;
  cannot: boolean;
  again: () => void;
}

/** A note with the way to run it again; empty where nothing has changed. */
export function StaleNote({ stale, words, cannot, again }: Props) {
  return (
    <div role="status">
      {stale && (
        <div class="motion-stale">
          <p>This is of the line before the last change.</p>
          <button type="button" class="button" disabled={cannot} onClick={again}>{words}</button>
        </div>
      )}
    </div>
  );
}
