// How far long work is, and the way to stop it.
import type { Work } from "./work";

interface Props {
  work: Work;
  /** What is being done: "Shaking this line and the even one". */
  doing: string;
}

const whole = 100;

/** Progress with a Stop button while it runs; in words why there is no answer where it failed. */
export function WorkBar({ work, doing }: Props) {
  const share = work.share.value;
  if (!work.running.value) return <div role="status">{work.trouble.value && <p class="motion-trouble">{work.trouble.value}</p>}</div>;
  const percent = share === null ? null : Math.round(share * whole);
  return (
    <div class="motion-work">
      <label>
        {doing}{percent === null ? "" : `: ${percent} % done`}{work.left.value && `, ${work.left.value}`}
        {percent === null ? <progress /> : <progress value={percent} max={whole} />}
      </label>
      <button type="button" class="button" onClick={() => work.stop()}>Stop</button>
    </div>
  );
}
