import {
  LAYER_CLASSES,
  LAYER_KINDS,
  type LayerClass,
  type MachineLayers,
  placeholdersOf,
  USUAL_LAYERS,
} from '../model/machine-layers.ts';
import { suggest } from './nearest.ts';
import type { Report } from './report.ts';
import { child, type Field, isFlawed, subjectOf, textOf } from './tree.ts';
import { type Reading, readWord } from './values.ts';
import { quote } from './visible.ts';

/** The longest name that release 12 of DXF has, and what a number in it comes to at most, such as "1000P125". */
const LONGEST_NAME = 31;
const LONGEST_NUMBER = 8;

/** The names of the layers in the files for a machine; null after a problem. */
export function readLayers(field: Field | null, { report }: Reading): MachineLayers | null {
  if (field === null) return USUAL_LAYERS;
  if (isFlawed(field)) return null;
  const names: Record<LayerClass, string | null> = { ...USUAL_LAYERS.names };
  let sound = true;
  for (const layer of LAYER_CLASSES) {
    const own = child(field, layer);
    if (own === null) continue;
    if (isFlawed(own)) sound = false;
    else if (textOf(own) === 'none') {
      if (!acceptNone(layer, own, report)) sound = false;
      names[layer] = null;
    } else if (acceptName(layer, own, report)) names[layer] = textOf(own);
    else sound = false;
  }
  const tabs = child(field, 'tabs');
  if (tabs !== null && isFlawed(tabs)) return null;
  return sound ? { names, tabs: readWord(tabs, USUAL_LAYERS.tabs) } : null;
}

function acceptNone(layer: LayerClass, field: Field, report: Report): boolean {
  const { mayBeNone, holds } = LAYER_KINDS[layer];
  if (mayBeNone) return true;
  const message = `${subjectOf(field)} cannot be left out: it holds ${holds}`;
  report.error(field, 'bad-layer', message, 'give it a name; two layers may have the same');
  return false;
}

function acceptName(layer: LayerClass, field: Field, report: Report): boolean {
  const name = textOf(field);
  const possible = placeholdersOf(layer);
  const used = [...name.matchAll(/\{([^{}]*)\}/g)].map(([, key = '']) => key);
  const strange = used.find((key) => !possible.some((each) => each === key));
  if (strange !== undefined) {
    const message = `${subjectOf(field)} cannot have ${quote(`{${strange}}`)} in its name`;
    report.error(field, 'bad-layer', message, suggest(strange, possible));
    return false;
  }
  const plain = name.replace(/\{[^{}]*\}/g, '');
  const odd = /[^A-Za-z0-9$_-]/u.exec(plain);
  if (odd !== null) {
    const message = `the name of a layer cannot have ${quote(odd[0])} in it`;
    report.error(field, 'bad-layer', message, NAME_HINT);
    return false;
  }
  const length = plain.length + used.length * LONGEST_NUMBER;
  if (length <= LONGEST_NAME) return true;
  const message =
    used.length === 0
      ? `the name has ${length} letters; the most is ${LONGEST_NAME}`
      : `with its numbers the name may come to ${length} letters; the most is ${LONGEST_NAME}`;
  report.error(field, 'bad-layer', message, 'shorten it');
  return false;
}

const NAME_HINT = 'write letters from A to Z, digits, $, - and _';
