/**
 * What is ticked, by the name of each box, kept in this browser under the key of the plan.
 *
 * @typedef {object} Ticks
 * @property {(name: string) => boolean} has
 * @property {(names: readonly string[], on: boolean) => void} set
 * @property {() => void} clear
 * @property {() => string | null} trouble Why nothing is kept; null while all is well.
 *
 * @param {string} key
 * @param {() => void} onChange Called after every change, those made in another window too.
 * @returns {Ticks}
 */
export function openTicks(key, onChange) {
  const place = `holdfast-ticks-${key}`;
  let kept = true;

  /** @returns {Set<string>} */
  const read = () => {
    try {
      const names = JSON.parse(localStorage.getItem(place) ?? '[]');
      return new Set(Array.isArray(names) ? names.map(String) : []);
    } catch (error) {
      // What cannot be read as a list is a store of somebody else's making: it is written over with the next tick.
      if (!(error instanceof SyntaxError)) kept = false;
      return new Set();
    }
  };
  let ticked = read();

  const write = () => {
    try {
      if (ticked.size === 0) localStorage.removeItem(place);
      else localStorage.setItem(place, JSON.stringify([...ticked].sort()));
      kept = true;
    } catch {
      kept = false;
    }
    onChange();
  };

  addEventListener('storage', (event) => {
    if (event.key !== place && event.key !== null) return;
    ticked = read();
    onChange();
  });

  return {
    has: (name) => ticked.has(name),
    set: (names, on) => {
      // What another window has ticked meanwhile is not lost.
      if (kept) ticked = read();
      for (const name of names) {
        if (on) ticked.add(name);
        else ticked.delete(name);
      }
      write();
    },
    clear: () => {
      ticked.clear();
      write();
    },
    trouble: () =>
      kept
        ? null
        : 'This browser keeps nothing for this page: the ticks are gone when it is closed or loaded again.',
  };
}
