// A button that lets people choose files.
import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";

interface Asked {
  class?: string;
  many?: boolean;
  onFiles: (files: File[]) => void;
  children: ComponentChildren;
}

/** Opens the browser's own choice of files. What kinds it offers is left open: phones do not know TOML. */
export function FileButton({ class: look = "button", many = false, onFiles, children }: Asked) {
  const input = useRef<HTMLInputElement>(null);
  const chosen = (): void => {
    const element = input.current;
    const list = [...(element?.files ?? [])];
    if (element) element.value = ""; // so that the same file can be chosen again
    if (list.length > 0) onFiles(list);
  };
  return (
    <>
      <button type="button" class={look} onClick={() => input.current?.click()}>{children}</button>
      <input ref={input} type="file" multiple={many} hidden tabIndex={-1} aria-hidden="true" onChange={chosen} />
    </>
  );
}
