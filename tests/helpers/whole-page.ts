import { planPage } from '../../src/index.ts';

/** The page of a plan as one text. */
export function wholePage(...asked: Parameters<typeof planPage>): string {
  return [...planPage(...asked)].join('');
}
