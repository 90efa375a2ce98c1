// The text editor as it is set up for rig files and their CSV files.
import { defaultKeymap } from "@codemirror/commands";
import { bracketMatching, defaultHighlightStyle, StreamLanguage, syntaxHighlighting } from "@codemirror/language";
import { toml } from "@codemirror/legacy-modes/mode/toml";
import { lintGutter, setDiagnostics, type Diagnostic } from "@codemirror/lint";
import { Annotation, EditorState, type Extension, type Text } from "@codemirror/state";
import { drawSelection, EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from "@codemirror/view";
import type { FileFault } from "../engine/api";
import { changeBetween, offsetOfColumn } from "./text_change";

/** Marks changes that come from the page, not from the keyboard. */
const fromPage = Annotation.define<boolean>();

export interface EditorUse {
  /** People changed the text. */
  typed: () => void;
  /** Undo and redo are those of the page: there is one history. */
  undo: () => void;
  redo: () => void;
}

function historyKeys({ undo, redo }: EditorUse): Extension {
  const done = (step: () => void) => (): boolean => {
    step();
    return true;
  };
  // The menu of a phone's keyboard asks like this.
  const asked = (event: InputEvent): boolean => {
    if (event.inputType !== "historyUndo" && event.inputType !== "historyRedo") return false;
    event.preventDefault();
    (event.inputType === "historyUndo" ? undo : redo)();
    return true;
  };
  return [
    keymap.of([
      { key: "Mod-z", run: done(undo), preventDefault: true },
      { key: "Mod-y", run: done(redo), preventDefault: true },
      { key: "Mod-Shift-z", run: done(redo), preventDefault: true },
    ]),
    EditorView.domEventHandlers({ beforeinput: asked }),
  ];
}

/** An editor in `parent`. Tab leaves it, as everywhere on the page. */
export function makeEditor(parent: HTMLElement, label: string, use: EditorUse): EditorView {
  const heard = EditorView.updateListener.of((update) => {
    if (update.docChanged && !update.transactions.some((step) => step.annotation(fromPage))) use.typed();
  });
  const extensions: Extension[] = [
    historyKeys(use), keymap.of(defaultKeymap), lineNumbers(), lintGutter(), highlightActiveLine(), highlightActiveLineGutter(),
    drawSelection(), bracketMatching(), StreamLanguage.define(toml), syntaxHighlighting(defaultHighlightStyle),
    EditorView.contentAttributes.of({
      "aria-label": label, tabindex: "0", autocapitalize: "off", autocorrect: "off", spellcheck: "false",
    }),
    heard,
  ];
  return new EditorView({ parent, state: EditorState.create({ doc: "", extensions }) });
}

/** Line ends as they are kept: an editor would make one kind of them all. */
export const lineEndOf = (text: string): string => (text.includes("\r\n") ? "\r\n" : "\n");

/** The text in an editor with the line ends of the file. */
export const textOf = (doc: Text, lineEnd: string): string => doc.sliceString(0, doc.length, lineEnd);

/** Puts another text into an editor; the caret stays where it can. */
export function showText(view: EditorView, text: string): void {
  const change = changeBetween(textOf(view.state.doc, "\n"), text.replace(/\r\n?/g, "\n"));
  if (change) view.dispatch({ changes: change, annotations: fromPage.of(true) });
}

function offsetOf(doc: Text, fault: FileFault): { at: number; end: number } {
  const line = doc.line(Math.min(Math.max(1, fault.line), doc.lines));
  const offset = Math.min(offsetOfColumn(line.text, fault.column), line.length);
  // What is marked: the word or the quoted value that begins there.
  const word = /^("(?:[^"\\]|\\.)*"?|[^\s,\]}=#]+)/.exec(line.text.slice(offset))?.[0].length ?? 0;
  return { at: line.from + offset, end: line.from + offset + word };
}

/** Marks the faults of the file that is shown. */
export function showFaults(view: EditorView, faults: readonly FileFault[]): void {
  const diagnostics = faults.map((fault): Diagnostic => {
    const { at, end } = offsetOf(view.state.doc, fault);
    return { from: at, to: end, severity: "error", message: fault.words };
  });
  diagnostics.sort((a, b) => a.from - b.from);
  view.dispatch(setDiagnostics(view.state, diagnostics));
}

/** Puts the caret to a fault and the fault into sight. */
export function goToFault(view: EditorView, fault: FileFault): void {
  const { at } = offsetOf(view.state.doc, fault);
  view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
  view.focus();
}
