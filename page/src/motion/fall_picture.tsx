// A fall at one moment, or as it happens.
import { useComputed, type ReadonlySignal } from "@preact/signals";
import { useCallback, useMemo } from "preact/hooks";
import { Canvas, type Drawing } from "./canvas";
import type { FallFilmed } from "./fall_films";
import { drawFall } from "./fall_scene";
import { viewOf, type Closeness } from "./fall_window";
import { trueHeight } from "./projection";

interface Props {
  filmed: FallFilmed;
  closeness: Closeness;
  time_s: ReadonlySignal<number>;
  label: string;
}

const leastHeight = 150;
/** The picture leaves room on the screen for its bar. */
const greatestScreenShare = 0.6;

export function FallPicture({ filmed, closeness, time_s, label }: Props) {
  const view = useMemo(() => viewOf(filmed.film, filmed.picture, closeness), [filmed, closeness]);
  const height = useCallback(
    (width: number) => Math.max(leastHeight, Math.min(greatestScreenShare * window.innerHeight, trueHeight(view.window, width))),
    [view],
  );
  const draw = useCallback((drawing: Drawing) => drawFall(drawing, filmed, view, time_s.value), [filmed, view, time_s]);
  return <Canvas label={label} height={height} draw={draw} />;
}

/** A moment as a still. */
export function FallStill({ time_s, ...rest }: Omit<Props, "time_s"> & { time_s: number }) {
  const still = useComputed(() => time_s);
  return <FallPicture time_s={still} {...rest} />;
}
