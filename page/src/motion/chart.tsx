// A chart over the time of a film that grows with the playhead.
import { useComputed, type ReadonlySignal } from "@preact/signals";
import { useId, useMemo } from "preact/hooks";
import { useWidth } from "./canvas";
import { chartShape, plotMargin, type ChartShape, type Series } from "./chart_shape";
import "./chart.css";

interface Props {
  title: string;
  /** What the picture says, for those who do not see it. */
  label: string;
  series: readonly Series[];
  frame_s: number;
  length_s: number;
  playhead_s: ReadonlySignal<number>;
  /** How a value stands at the axis. */
  tick: (value: number) => string;
  atLeast: number;
  window?: { from_s: number; to_s: number; words: string };
  limit?: { value: number; words: string };
  /** From here on it means nothing. */
  nothing?: { from_s: number; words: string };
}

const height = 190;
const titleUp = 7;
const apart = 5;
const wordsDown = 13;
const tickDown = 16;
const axisDown = 30;

/** The drawing takes the width of its place. */
export function Chart(props: Props) {
  const { place, width } = useWidth<HTMLDivElement>();
  const wide = width.value;
  return (
    <figure class="chart">
      <figcaption>
        {props.title}
        <span class="chart-key" aria-hidden="true">
          {props.series.length > 1 && props.series.map(({ name, look }) => (
            <span key={name}><svg width="34" height="10"><line class={`chart-line chart-${look}`} x1="1" x2="33" y1="5" y2="5" /></svg> {name}</span>
          ))}
        </span>
      </figcaption>
      <div class="chart-place" ref={place}>{wide > 0 && <Plot {...props} width={wide} />}</div>
    </figure>
  );
}

function Plot(props: Props & { width: number }) {
  const { width, length_s, frame_s, series, atLeast, playhead_s } = props;
  const clip = useId();
  const shape = useMemo(() => chartShape({ width, height, length_s, frame_s, series, atLeast }), [width, length_s, frame_s, series, atLeast]);
  const head = useComputed(() => shape.x(playhead_s.value));
  const shown = useComputed(() => Math.max(0, head.value - plotMargin.left));
  return (
    <svg class="chart-plot" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={props.label}>
      <clipPath id={clip}><rect x={plotMargin.left} y={0} width={shown} height={height} /></clipPath>
      {props.window && <Measured shape={shape} {...props.window} />}
      <Axes shape={shape} width={width} tick={props.tick} />
      {props.limit && <Limit shape={shape} width={width} {...props.limit} />}
      <g clip-path={`url(#${clip})`}>
        {[...series.keys()].reverse().map((index) => (
          <path key={index} class={`chart-line chart-${series[index]!.look}`} d={shape.paths[index]} />
        ))}
      </g>
      {props.nothing && <Nothing shape={shape} {...props.nothing} />}
      <line class="chart-head" x1={head} x2={head} y1={plotMargin.top} y2={height - plotMargin.bottom} />
    </svg>
  );
}

function Measured({ shape, from_s, to_s, words }: { shape: ChartShape; from_s: number; to_s: number; words: string }) {
  const [first, last] = shape.x.range() as [number, number];
  const left = Math.min(shape.x(from_s), last);
  const right = Math.min(shape.x(to_s), last);
  if (right <= left) return null;
  const before = left > (first + last) / 2;
  return (
    <g>
      <rect class="chart-window" x={left} y={plotMargin.top} width={right - left} height={height - plotMargin.top - plotMargin.bottom} />
      <line class="chart-window-edge" x1={left} x2={left} y1={plotMargin.top - titleUp} y2={height - plotMargin.bottom} />
      <line class="chart-window-edge" x1={right} x2={right} y1={plotMargin.top - titleUp} y2={height - plotMargin.bottom} />
      <text x={before ? right : left} y={wordsDown} text-anchor={before ? "end" : "start"}>{words}</text>
    </g>
  );
}

function Nothing({ shape, from_s, words }: { shape: ChartShape; from_s: number; words: string }) {
  const [first, last] = shape.x.range() as [number, number];
  const left = Math.min(shape.x(from_s), last);
  const before = left > (first + last) / 2;
  const deep = height - plotMargin.top - plotMargin.bottom;
  return (
    <g>
      <rect class="chart-nothing" x={left} y={plotMargin.top} width={last - left} height={deep} />
      <line class="chart-hit" x1={left} x2={left} y1={plotMargin.top - titleUp} y2={height - plotMargin.bottom} />
      <text x={left + (before ? -apart : apart)} y={height - plotMargin.bottom - apart} text-anchor={before ? "end" : "start"}>{words}</text>
    </g>
  );
}

function Limit({ shape, width, value, words }: { shape: ChartShape; width: number; value: number; words: string }) {
  const y = shape.y(value);
  return (
    <g>
      <line class="chart-limit" x1={plotMargin.left} x2={width - plotMargin.right} y1={y} y2={y} />
      <text x={plotMargin.left + apart} y={y - apart}>{words}</text>
    </g>
  );
}

function Axes({ shape, width, tick }: { shape: ChartShape; width: number; tick: Props["tick"] }) {
  const floor = height - plotMargin.bottom;
  return (
    <g class="chart-axes">
      {shape.yTicks.map((value) => (
        <g key={value}>
          <line
            class={value === 0 ? "chart-floor" : "chart-rule"}
            x1={plotMargin.left}
            x2={width - plotMargin.right}
            y1={shape.y(value)}
            y2={shape.y(value)}
          />
          <text x={plotMargin.left - 5} y={shape.y(value)} dominant-baseline="middle" text-anchor="end">{tick(value)}</text>
        </g>
      ))}
      {shape.xTicks.map((value) => (
        <g key={value}>
          <line x1={shape.x(value)} x2={shape.x(value)} y1={floor} y2={floor + 4} class="chart-floor" />
          <text x={shape.x(value)} y={floor + tickDown} text-anchor="middle">{value}</text>
        </g>
      ))}
      <text x={width - plotMargin.right} y={floor + axisDown} text-anchor="end">seconds</text>
    </g>
  );
}
