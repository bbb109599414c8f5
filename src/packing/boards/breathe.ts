/** Lets the thread do what waits for it: a signal that stops the search is only heard then. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    setImmediate(resolve);
  });
}
