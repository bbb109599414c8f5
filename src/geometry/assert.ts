/** Stops on our own mistake: `condition` must hold whatever the user's file says. Throws `AssertionError`. */
export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new AssertionError(message);
}

/** The end of a `switch` over a literal union: the compiler proves that it is never reached. */
export function never(value: never): never {
  throw new AssertionError(`unexpected case: ${JSON.stringify(value)}`);
}

/** A broken promise inside the program, as against trouble in the user's file. */
export class AssertionError extends Error {
  override readonly name = 'AssertionError';
}
