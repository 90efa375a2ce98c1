// The page begins here.
import { render } from "preact";
import "./style.css";
import { App } from "./frame/app";
import { listenForDrops } from "./frame/drop";
import { listenForUndoKeys } from "./frame/keys";
import { guardUnsaved } from "./frame/opening";
import { followSheet } from "./frame/sheet_pages";
import { start } from "./frame/start";

start();
followSheet();
guardUnsaved();
listenForDrops();
listenForUndoKeys();

const place = document.getElementById("page");
if (place) {
  place.textContent = ""; // what is said to browsers that are too old
  render(<App />, place);
}
