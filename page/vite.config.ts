// One self-contained file: scripts, styles, the worker and the engine in it are all inlined.
import { defineConfig } from "vite";
import { viteSingleFile } from "vite-plugin-singlefile";

export default defineConfig({
  plugins: [viteSingleFile({ removeViteModuleLoader: true })],
  // A module worker from a blob does not start on a page opened from a file; a plain script does.
  worker: { format: "iife" },
  build: { target: "es2022", assetsInlineLimit: 100_000_000, chunkSizeWarningLimit: 4000, cssCodeSplit: false },
});
