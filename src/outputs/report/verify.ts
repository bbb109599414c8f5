import { counted } from '../../model/format.ts';
import type { Recheck, RecordFault } from '../../model/recheck.ts';
import { type Line, wrap } from './line.ts';

/** Both files by the names that were given. */
interface Names {
  readonly plan: string;
  readonly parts: string;
}

/** A screen or two; the JSON has all of them. */
const MOST_SHOWN = 60;

/** What follows from the parts file and the layout, so that with another file most of it is otherwise. */
const FOLLOWS = ['head', 'figure', 'holding', 'offcut'];

/**
 * What `verify` prints: everything that is wrong, or what was checked, and what the check leaves open. Where the plan is of another parts file, what follows from that is
 * counted only, unless `all` of it is asked for.
 */
export function verifyLines(
  { plan, parts }: Names,
  checked: Recheck,
  all: boolean,
): readonly Line[] {
  const { faults, notChecked, provedAgain } = checked;
  const open =
    notChecked.length === 0 ? [] : wrap('quiet', `Not checked: ${notChecked.join(' ')}`, '  ');
  if (faults.length === 0) {
    const said = `${plan}: in order. Checked against ${parts}: ${countText(checked)}; each where it may lie, once, with the outline, counts, yields, offcuts, costs and hold-down that follow.${provedText(provedAgain)}`;
    return [...wrap('good', said, '  '), ...open];
  }
  const count = faults.length === 1 ? '1 thing is' : `${faults.length} things are`;
  const isOther = faults.some(({ code }) => code === 'other-file');
  return [
    ...(isOther && !all ? otherLines(checked) : faultLines(faults)),
    ...wrap('bad', `${plan}: ${count} wrong, checked against ${parts}`, '  '),
    ...open,
  ];
}

/** The faults of geometry and demand, then how many figures follow. */
function otherLines({ faults, isReckoned }: Recheck): readonly Line[] {
  const listed = faults.filter(({ code }) => !FOLLOWS.includes(code));
  const figures = faults.length - listed.length;
  const follow =
    figures === 1
      ? '1 figure that follows from the file is otherwise'
      : `${figures} figures that follow from the file are otherwise`;
  return [
    ...faultLines(listed),
    ...(listed.length > 1 || !isReckoned
      ? []
      : wrap('plain', 'All pieces are there, each once and where it may lie.', '    ')),
    ...(figures === 0
      ? []
      : wrap('plain', `${follow}; --all lists ${figures === 1 ? 'it' : 'them'}`, '    ')),
  ];
}

/** Each with its place in the file, as `verify` and a file that is no plan have them. */
export function faultLines(faults: readonly RecordFault[]): readonly Line[] {
  const shown = faults.length > MOST_SHOWN ? faults.slice(0, MOST_SHOWN - 1) : faults;
  const more = faults.length - shown.length;
  return [
    ...shown.flatMap(({ code, path, message }) =>
      wrap('plain', `${path === '' ? '' : `${path}: `}${message} [${code}]`, '    '),
    ),
    ...(more > 0 ? wrap('plain', `and ${more} more; --format json lists all`) : []),
  ];
}

/** The same as JSON; `checked` is null where the file is no plan, for the reasons that `faults` gives. */
export function verifyRecord(
  { plan, parts }: Names,
  faults: readonly RecordFault[],
  checked: Recheck | null,
): string {
  const record = {
    format: 'holdfast-verify/1',
    plan,
    partsFile: parts,
    valid: faults.length === 0,
    faults: faults.map(({ code, path, message }) => ({ code, path, message })),
    checked:
      checked === null
        ? null
        : { ...checked.counts, figures: checked.isReckoned, bounds: checked.provedAgain },
    notChecked: checked?.notChecked ?? [],
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

function provedText(materials: readonly string[]): string {
  if (materials.length === 0) return '';
  return ` That ${materials.join(', ')} cannot do with less follows from the size of the pieces alone.`;
}

function countText({ counts: { sheets, pieces, boards, lengths } }: Recheck): string {
  const parts = [
    ...(sheets > 0 || boards === 0
      ? [`${counted(sheets, 'sheet')} with ${counted(pieces, 'piece')}`]
      : []),
    ...(boards > 0 ? [`${counted(boards, 'board')} with ${counted(lengths, 'piece')}`] : []),
  ];
  return parts.join(', ');
}
