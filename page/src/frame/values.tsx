// A form for the values that are changed most. Each change is an edit of the rig file's text.
import { useId } from "preact/hooks";
import { text } from "../words/format";
import { Why } from "../words/why";
import { judged } from "./judged";
import { SectionLink } from "./section";
import { useField } from "./value_field";
import { askedValues, type AskedValue } from "./value_list";
import "./values.css";

/** A way on where a gap is refused because the ground, which has a place of its own in the rig file, ends before it. */
function WayOn({ asked, said }: { asked: AskedValue; said: string }) {
  if (asked.key !== "site.gap" || !/ground/i.test(said)) return null;
  return <p class="values-way"><SectionLink to="file">Change the ground in the rig file</SectionLink></p>;
}

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
          aria-invalid={field.said !== ""} aria-describedby={`${id}-said`}
          onInput={(event) => field.type(event.currentTarget.value)} onBlur={() => void field.leave()} onKeyDown={pressed}
        />
        <button type="button" class="button values-step" aria-label={`${asked.label}: more`} onClick={() => field.step(1)}>+</button>
      </div>
      <p id={`${id}-said`} role="alert" class="refused">{field.said}</p>
      <WayOn asked={asked} said={field.said} />
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
