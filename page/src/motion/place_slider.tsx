// A place along the gap, pulled along a native slider.
import { useId } from "preact/hooks";
import { text } from "../words/format";

interface Props {
  label: string;
  gap_m: number;
  at_m: number;
  choose: (at_m: number) => void;
}

const step_m = 0.1;

/** @param at_m from the near anchor [m] */
export function PlaceSlider({ label, gap_m, at_m, choose }: Props) {
  const id = useId();
  const words = `${text(at_m, "length")} from the near anchor, ${text(gap_m - at_m, "length")} from the far one`;
  return (
    <div class="motion-slider">
      <label for={id}>{label}: <strong>{words}</strong></label>
      <input
        id={id}
        type="range"
        min={0}
        max={gap_m}
        step={step_m}
        value={at_m}
        aria-valuetext={words}
        onInput={(event) => choose(Number(event.currentTarget.value))}
      />
    </div>
  );
}
