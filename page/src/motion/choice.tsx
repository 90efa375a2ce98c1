// One of a few: native radio buttons that look like a row of buttons.
import { useId } from "preact/hooks";
import "./choice.css";

interface Props<T> {
  legend: string;
  chosen: T;
  choices: readonly { value: T; words: string; cannot?: boolean }[];
  choose: (value: T) => void;
}

/** A row to choose one from, by touch or arrow keys. */
export function Choice<T extends string | number>({ legend, chosen, choices, choose }: Props<T>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend>{legend}</legend>
      <div class="choice-row">
        {choices.map(({ value, words, cannot }) => (
          <label key={value} class="choice-one">
            <input type="radio" name={name} checked={value === chosen} disabled={cannot ?? false} onChange={() => choose(value)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
