// A form for the values that are changed most. Each change is an edit of the rig file's text.
import { useSignal } from "@preact/signals";
import { useEffect, useId, useRef } from "preact/hooks";
import { edit } from "../state/rig";
import { units } from "../state/units";
import { text } from "../words/format";
import { Why } from "../words/why";
import { asToml, inSI, stepped } from "./entered";
import { judged } from "./judged";
import { askedValues, type AskedValue } from "./value_list";
import "./values.css";

const stepsRest = 450; // [ms] after the last press of - or +: steps in a row are one change

/** What a field does with what is typed and pressed. */
function useField(asked: AskedValue, now: number | null) {
  const typed = useSignal<string | null>(null);
  const isWaiting = useSignal(false);
  const refused = useSignal("");
  const timer = useRef<ReturnType<typeof setTimeout>>();
  useEffect(() => {
    if (!isWaiting.value && refused.value === "") typed.value = null;
  }, [judged.value, units.value]);
  useEffect(() => () => clearTimeout(timer.current), []);

  const commit = async (): Promise<void> => {
    clearTimeout(timer.current);
    const entered = typed.value;
    if (!isWaiting.value || entered === null) return;
    const toml = asToml(entered, asked.quantity);
    const label = `changing ${asked.object} to ${JSON.parse(toml) as string}`;
    refused.value = await edit({ kind: "value", key: asked.key, toml }, label);
    if (typed.value === entered) isWaiting.value = false;
  };
  const type = (entered: string): void => {
    typed.value = entered;
    isWaiting.value = true;
    refused.value = "";
  };
  const step = (sign: 1 | -1): void => {
    const from = typed.value === null ? now : inSI(typed.value, asked.quantity);
    type(stepped(from ?? now ?? 0, asked.quantity, asked.step[units.value], sign));
    clearTimeout(timer.current);
    timer.current = setTimeout(() => void commit(), stepsRest);
  };
  const giveUp = (): void => {
    clearTimeout(timer.current);
    typed.value = null;
    isWaiting.value = false;
    refused.value = "";
  };
  return { typed: typed.value, refused: refused.value, type, step, commit, giveUp };
}

/** The engine names file, line and column; here the line is enough. */
const atLine = (words: string): string => words.replace(/^.*?:(\d+):\d+: /gm, "Line $1 of the rig file: ");

function Field({ asked }: { asked: AskedValue }) {
  const id = useId();
  const view = judged.value;
  const now = view === null ? null : asked.now(view);
  const field = useField(asked, now);
  const hasOne = now !== null;
  const pressed = (event: KeyboardEvent): void => {
    if (event.key === "Enter") void field.commit();
    if (event.key === "Escape") field.giveUp();
  };
  return (
    <div class="values-field">
      <span class="values-label"><label for={id}>{asked.label}</label>{asked.why && <Why of={asked.why} />}</span>
      <div class="values-entry">
        <button type="button" class="button values-step" aria-label={`${asked.label}: less`} onClick={() => field.step(-1)}>−</button>
        <input
          id={id} type="text" autocomplete="off" autocapitalize="off" spellcheck={false} enterkeyhint="done"
          value={field.typed ?? (hasOne ? text(now, asked.quantity) : "")}
          placeholder={view === null ? "" : asked.otherwise(view)}
          aria-invalid={field.refused !== ""} aria-describedby={`${id}-said`}
          onInput={(event) => field.type(event.currentTarget.value)} onBlur={() => void field.commit()} onKeyDown={pressed}
        />
        <button type="button" class="button values-step" aria-label={`${asked.label}: more`} onClick={() => field.step(1)}>+</button>
      </div>
      <p id={`${id}-said`} role="alert" class="refused">{atLine(field.refused)}</p>
    </div>
  );
}

/** Gap, rise, tension, slack or drop, walker, arm span, wind. */
export function Values() {
  return (
    <>
      <p class="lead">Type a value with its unit, or press − and +. The rig file is changed with it.</p>
      <div class="values">{askedValues.map((asked) => <Field key={asked.key} asked={asked} />)}</div>
      <p class="hint">
        Slack or drop: one of the two for all bays. It takes the place of what the rig file says of the backup, lengths as cut among
        them: cut the backup anew then. A standing tension takes the place of a length of main that was given.
      </p>
    </>
  );
}
