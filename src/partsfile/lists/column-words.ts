/** What a column of a cut list can be. The sides are those of the part as it is written, its length from left to right. */
export const COLUMN_ROLES = [
  'name',
  'length',
  'width',
  'thickness',
  'size',
  'count',
  'material',
  'grain',
  'edges',
  'left',
  'right',
  'bottom',
  'top',
  'group',
  'note',
  'label',
  'height',
  'depth',
] as const;
export type ColumnRole = (typeof COLUMN_ROLES)[number];

/**
 * The words that head the columns of cut lists in English, German, French, Spanish, Italian, Dutch, Polish and Portuguese, in the form of `folded`; common
 * practice, no source. Where a list has two words of one column, the earlier is taken.
 */
const WORDS: Readonly<Record<ColumnRole, string>> = {
  name: `part name, name, part, component, bauteil, teil, teilename, benennung, bezeichnung, piece, nom, designation, pieza, nombre, denominacion, pezzo,
    nome, componente, denominazione, onderdeel, naam, omschrijving, benaming, element, nazwa, czesc, peca, designacao, denominacao, item, description,
    beschreibung, descripcion, descrizione, descricao, opis, libelle`,
  length: `length, l, len, lengte, lange, longueur, long, longitud, largo, lunghezza, lungh, dlugosc, dl, comprimento, comp`,
  width: `width, w, wd, wid, b, br, breite, largeur, larg, ancho, anchura, larghezza, breedte, szerokosc, szer, largura`,
  thickness: `thickness, thick, thk, t, th, d, s, dicke, starke, materialstarke, plattenstarke, materialdicke, plattendicke, epaisseur, ep, e, espesor, grosor,
    esp, spessore, spess, sp, dikte, grubosc, gr, espessura, material thickness, board thickness`,
  size: `size, dimensions, dimension, dims, masse, abmessungen, abmessung, fertigmass, mesures, medidas, dimensiones, misure, dimensioni, afmetingen,
    afmeting, maten, wymiary, wymiar, dimensoes, lxw, l x w, lxb, l x b, l x l`,
  count: `count, qty, quantity, pcs, pieces, nos, no of, no off, off, number of pieces, number of parts, amount, anzahl, stuck, stk, st, stuckzahl, stckz, menge,
    quantite, qte, nombre de pieces, nb, nbre, cantidad, cant, uds, unidades, quantita, qta, q ta, nr pezzi, n pezzi, pezzi, aantal, ilosc, szt, sztuk, liczba,
    quantidade, qtd, qtde, quant`,
  material: `material, stock, board, panel, sheet, werkstoff, platte, plattenmaterial, matiere, materiau, panneau, panel material, tablero, materiale, pannello,
    materiaal, plaat, plaatmateriaal, material name, plyta, materia prima, painel, chapa, mat`,
  grain: `grain, grain direction, direction, faserrichtung, faser, maserung, maserungsrichtung, laufrichtung, fil, sens du fil, sens fil, sens, veta, sentido de la veta,
    fibra, vena, venatura, senso vena, nerf, nerfrichting, vezel, sloj, kierunek sloju, usloienie, usloj, veio, sentido do veio, veios`,
  edges: `edges, edge, banding, edging, edgings, edge tape, tape, edge banding, edgebanding, edge band, edge bands, kanten, kante, bekantung, umleimer, kantenbild, chants, chant, placage de chant,
    cantos, canto, canteado, bordi, bordo, bordatura, kantenband, randen, obrzeza, okleina, obrzeze, orla, orlas, fita de borda`,
  left: 'left, links, gauche, izquierda, izq, sinistra, sx, lewa, lewy, esquerda, w1, b1, width 1, breite 1, short 1',
  right:
    'right, rechts, droite, derecha, der, destra, dx, prawa, prawy, direita, w2, b2, width 2, breite 2, short 2',
  bottom:
    'bottom, front, vorne, vorn, unten, avant, bas, delante, delantera, abajo, davanti, sotto, voor, onder, przod, dol, frente, baixo, l1, length 1, lange 1, long 1',
  top: 'top, back, hinten, oben, arriere, haut, detras, trasera, arriba, dietro, sopra, achter, boven, tyl, gora, tras, cima, l2, length 2, lange 2, long 2',
  group: `group, assembly, cabinet, module, carcass, room, gruppe, baugruppe, mobel, korpus, schrank, groupe, ensemble, meuble, caisson, grupo, conjunto, mueble,
    modulo, gruppo, mobile, assieme, groep, kast, meubel, grupa, szafka, zespol, movel, armario`,
  note: `note, notes, remark, remarks, comment, comments, bemerkung, bemerkungen, anmerkung, hinweis, kommentar, info, remarque, remarques, observation, observations,
    commentaire, nota, notas, observaciones, obs, note lavorazione, osservazioni, opmerking, opmerkingen, uwagi, uwaga, observacoes`,
  label: `label, pos, position, no, nr, number, num, id, code, ref, reference, mark, item no, part no, part number, teilenummer, etikett, etiquette, repere, rep, n,
    etiqueta, posicion, codice, posizione, etichetta, etiket, nummer, etykieta, poz, pozycja, lp, posicao, codigo`,
  height: 'height, h, ht, hohe, hauteur, haut, alto, altura, altezza, alt, hoogte, wysokosc, wys',
  depth:
    'depth, tiefe, profondeur, prof, profundidad, fondo, profondita, p, diepte, glebokosc, gleb, profundidade',
};

export interface WordMeaning {
  readonly role: ColumnRole;
  /** The lower, the more surely it is meant. */
  readonly rank: number;
}

const MEANINGS: ReadonlyMap<string, WordMeaning> = allMeanings();

function allMeanings(): ReadonlyMap<string, WordMeaning> {
  const meanings = new Map<string, WordMeaning>();
  for (const role of COLUMN_ROLES)
    WORDS[role].split(/,\s*/).forEach((word, rank) => {
      if (!meanings.has(word)) meanings.set(word, { role, rank });
    });
  return meanings;
}

/** Words that make something else of a column, whatever stands beside them. */
const OTHER =
  /\b(total|gesamt\w*|summe|price|preis|prix|precio|prezzo|prijs|cena|preco|cost|costs|kosten|area|flache|surface|weight|gewicht|poids|peso|m2|qm|waste)\b/;

/** Sizes as they are sawn, without the bands of the edges. */
const CUT =
  /\b(cut|cutting|raw|rough|zuschnitt\w*|roh\w*|zaag\w*|debit|brute?|corte|taglio|ciecia)\b/;

/** The languages that write such words in one have the thing itself at the end. */
const ENDINGS =
  /^(?!kante|gesamt)\w*?(lange|breite|dicke|starke|hohe|lengte|breedte|dikte|anzahl|stuckzahl|material|bezeichnung)$/;

/** Words by which one role gives way to what stands beside it: a part length is a length. */
const GIVING: readonly ColumnRole[] = ['name', 'material', 'label', 'edges'];

/** A text as headers are compared: lower case, without accents and signs, one blank between words. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}+/gu, '')
    .replace(/ß/g, 'ss')
    .replace(/ł/g, 'l')
    .replace(/ø/g, 'o')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** What a header says its column is, or null. `header` is without its unit. */
export function meaningOf(header: string): (WordMeaning & { readonly isCut: boolean }) | null {
  if (header.length > 60) return null;
  if (header.trim() === '#') return { role: 'label', rank: 0, isCut: false };
  // French and others write L for the length and l for the width.
  if (header.trim() === 'l') return { role: 'width', rank: 90, isCut: false };
  const plain = folded(header);
  const isCut = CUT.test(plain);
  const exact = MEANINGS.get(plain);
  if (exact !== undefined) return { ...exact, isCut };
  if (plain === '' || OTHER.test(plain)) return null;
  const within = meaningWithin(plain.split(' '));
  return within === null ? null : { ...within, isCut };
}

function meaningWithin(words: readonly string[]): WordMeaning | null {
  const found = words
    .filter((word) => word.length > 1)
    .map((word) => MEANINGS.get(word) ?? MEANINGS.get(ENDINGS.exec(word)?.[1] ?? ''))
    .filter((meaning) => meaning !== undefined);
  const firm = GIVING.reduce(
    (left, giving) =>
      left.some(({ role }) => role !== giving) ? left.filter(({ role }) => role !== giving) : left,
    found,
  );
  const roles = new Set(firm.map(({ role }) => role));
  const [one] = firm;
  // A word in the midst of others is less sure than one that stands alone.
  return one === undefined || roles.size !== 1 ? null : { role: one.role, rank: one.rank + 100 };
}
