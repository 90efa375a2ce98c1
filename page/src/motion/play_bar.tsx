// The bar under a film: play and pause, how fast, and a playhead that is pulled or stepped frame by frame.
import { useId } from "preact/hooks";
import { text } from "../words/format";
import { Choice } from "./choice";
import { speeds, type Player } from "./player";
import "./play_bar.css";

interface Props {
  player: Player;
  /** What is played, for screen readers: "shake". */
  of: string;
}

/** Play, pause, slow motion, playhead. Arrow keys on the playhead go one frame on or back. */
export function PlayBar({ player, of }: Props) {
  const playing = player.playing.value;
  return (
    <div class="play-bar" role="group" aria-label={`Playing the ${of}`}>
      <div class="play-bar-row">
        <button type="button" class="button play-bar-play" onClick={() => (playing ? player.pause() : player.play())}>
          {playing ? "Pause" : "Play"}
        </button>
        <button type="button" class="button" onClick={() => player.step(-1)}>Frame back</button>
        <button type="button" class="button" onClick={() => player.step(1)}>Frame on</button>
      </div>
      <Head player={player} of={of} />
      <Choice
        legend="Speed"
        chosen={player.speed.value}
        choices={speeds.map(({ share, words }) => ({ value: share as number, words }))}
        choose={(share) => (player.speed.value = share)}
      />
    </div>
  );
}

/** The playhead: the one part of the bar that follows the film. */
function Head({ player, of }: Props) {
  const id = useId();
  return (
    <>
      <div class="play-bar-names">
        <label for={id}>Moment of the {of}</label>
        <span class="play-bar-time">{text(player.time_s.value, "time")} of {text(player.length_s, "time")}</span>
      </div>
      <input
        id={id}
        class="play-bar-head"
        type="range"
        min={0}
        max={Math.max(0, player.frames - 1)}
        step={1}
        value={player.frame.value}
        aria-valuetext={`${spoken(player.time_s.value)} of ${spoken(player.length_s)}`}
        onInput={(event) => player.seek(Number(event.currentTarget.value))}
      />
    </>
  );
}

/** Seconds as they are read out. */
const spoken = (time_s: number): string => `${time_s.toFixed(2)} seconds`;
