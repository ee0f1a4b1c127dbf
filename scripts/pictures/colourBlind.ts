/**
 * A page as somebody sees it whose eyes lack one of the three kinds of cones: a colour matrix over the whole page.
 *
 * The matrices are those of Machado, Oliveira & Fernandes (2009), "A physiologically-based model for simulation of color vision
 * deficiency", severity 1.0, for linear RGB, which is what an SVG filter works in unless told otherwise; written from memory
 * and checked by that every row sums to 1 (white stays white).
 */
import type { Page } from 'playwright-core';

export const SEEN_AS = ['protanopia', 'deuteranopia', 'tritanopia'] as const;
export type SeenAs = (typeof SEEN_AS)[number];

/** Rows: red, green, blue out; columns: red, green, blue in. */
export const MATRICES: Readonly<Record<SeenAs, readonly (readonly [number, number, number])[]>> = {
  protanopia: [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
  deuteranopia: [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.01182, 0.04294, 0.968881]],
  tritanopia: [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.3039]],
};

/** Lays the filter over a page; it stays until the page is left. */
export async function seeAs(page: Page, eyes: SeenAs): Promise<void> {
  const values = MATRICES[eyes].map((row) => `${row.join(' ')} 0 0`).join(' ');
  await page.evaluate((matrix) => {
    const space = 'http://www.w3.org/2000/svg';
    const svg = document.createElementNS(space, 'svg');
    const filter = document.createElementNS(space, 'filter');
    const colours = document.createElementNS(space, 'feColorMatrix');
    filter.id = 'seen-as';
    colours.setAttribute('type', 'matrix');
    colours.setAttribute('values', `${matrix} 0 0 0 1 0`);
    filter.append(colours);
    svg.append(filter);
    svg.style.position = 'absolute';
    svg.style.width = '0';
    svg.style.height = '0';
    document.body.append(svg);
    document.documentElement.style.filter = 'url(#seen-as)';
  }, values);
}
