// Work that follows something that changes: never twice at once, and once more when it was asked for meanwhile.

/** @param task what to run; calls while it runs lead to one more run after it */
export function latest(task: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | null = null;
  let again = false;
  const run = async (): Promise<void> => {
    try {
      do {
        again = false;
        await task();
      } while (again);
    } finally {
      running = null;
    }
  };
  return () => {
    if (running) again = true;
    else running = run();
    return running ?? Promise.resolve();
  };
}
