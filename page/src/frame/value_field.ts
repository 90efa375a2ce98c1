// One field of the form of values: what is typed, what is taken into the rig file, what is refused.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { RigFiles } from "../engine/api";
import { edit, faults, files, opened, trouble } from "../state/rig";
import { units } from "../state/units";
import { asToml, inSI, stepped } from "./entered";
import { judged } from "./judged";
import { walked } from "./steps";
import type { AskedValue } from "./value_list";

const stepsRest = 450; // [ms] after the last press of - or +: steps in a row are one change

/** The engine names file, line and column; here the line is enough. */
const atLine = (words: string): string => words.replace(/^.*?:(\d+):\d+: /gm, "Line $1 of the rig file: ");

/** What is wrong with the rig file that concerns a key. @param isMine the last change was made in this field */
function wrongWith(key: string, isMine: boolean): string {
  const own = faults.value.filter((fault) => fault.key === key || isMine);
  const words = own.map((fault) => fault.words).join("\n");
  return words === "" && isMine && faults.value.length === 0 ? trouble.value : words;
}

/** The files that the last entry of any field made. */
let lastEntered: RigFiles | null = null;
let last: Promise<unknown> = Promise.resolve();

/** Entries of two fields at once follow one another: each is an edit of the text that the other left. */
function inTurn(what: () => Promise<string>): Promise<string> {
  const mine = last.then(what);
  last = mine.catch(() => undefined);
  return mine;
}

/** What a field does with what is typed and pressed. @param now in SI; null: there is no one value */
export function useField(asked: AskedValue, now: number | null) {
  const typed = useSignal<string | null>(null);
  const isWaiting = useSignal(false);
  const refused = useSignal("");
  const mine = useSignal<RigFiles | null>(null); // the files that the last entry of this field made
  const timer = useRef<ReturnType<typeof setTimeout>>();
  const taking = useRef<Promise<void> | null>(null);

  const giveUp = (): void => {
    clearTimeout(timer.current);
    typed.value = null;
    isWaiting.value = false;
    refused.value = "";
  };
  const isMine = mine.value === files.value;
  // Taken back, done again, another rig: the field is the rig's again, whatever was being entered.
  useEffect(giveUp, [opened.value, walked.value]);
  // What was entered stays until the plan of it is there, and longer while there is none.
  useEffect(() => {
    const isFaulty = mine.value === files.value && (faults.value.length > 0 || trouble.value !== "");
    if (!isWaiting.value && !isFaulty) typed.value = null;
  }, [judged.value, units.value]);
  useEffect(() => {
    if (isWaiting.value || mine.value === files.value) return;
    typed.value = null;
    // Why a value was refused must stand until it is read: another field may have been entered at the same time.
    if (files.value !== lastEntered) refused.value = "";
  }, [files.value]);
  useEffect(() => () => clearTimeout(timer.current), []);

  const take = async (entered: string): Promise<void> => {
    const toml = asToml(entered, asked.quantity);
    const value = JSON.parse(toml) as string;
    const label = `changing ${asked.object} to ${value}`;
    const isGivenUp = (): boolean => typed.value !== entered; // or something else is being entered by now
    const words = await inTurn(async () => (isGivenUp() ? "" : edit({ kind: "value", key: asked.key, toml }, label)));
    taking.current = null;
    if (words === "") lastEntered = files.value;
    if (isGivenUp()) return;
    isWaiting.value = false;
    if (words === "") mine.value = files.value;
    else refused.value = `${value} was not taken. ${atLine(words)}`;
  };
  const commit = async (): Promise<void> => {
    clearTimeout(timer.current);
    while (taking.current) await taking.current;
    if (!isWaiting.value || typed.value === null) return;
    taking.current = take(typed.value);
    await taking.current;
  };
  const type = (entered: string): void => {
    typed.value = entered;
    isWaiting.value = true;
    refused.value = "";
  };
  /** A refused value does not stay where the rig's is expected; why it was refused does. */
  const leave = async (): Promise<void> => {
    await commit();
    if (refused.value !== "" && !isWaiting.value) typed.value = null;
  };
  const step = (sign: 1 | -1): void => {
    const from = typed.value === null ? now : inSI(typed.value, asked.quantity);
    type(stepped(from ?? now ?? 0, asked.quantity, asked.step[units.value], sign));
    clearTimeout(timer.current);
    timer.current = setTimeout(() => void leave(), stepsRest);
  };
  const said = refused.value !== "" ? refused.value : atLine(wrongWith(asked.key, isMine));
  return { typed: typed.value, said, type, step, commit, leave, giveUp };
}
