// A cup seen from the side, in millimetres, to one scale for the whole bench.

import { freshId, s, setAttr } from './dom.js';

const HEADROOM_MM = 34; // above the mix, for rim and cutting
const RIM_MM = 6;
const WALL_MM = 1.4;

/** A usual vessel's shape (top and base diameter and depth as parts of depth), for cups of unknown vessel. */
const USUAL = { top: 0.84, base: 0.58 };
const USUAL_AVAILABLE_PART = 0.4; // of the volume; only sizes relative to each other are read from it

/** Inner top and base diameter and depth of mix in mm of a cup's vessel, or of a usual one that holds as much. */
export function frameOf(cup, setup) {
  const vesselName = setup?.cups?.[cup.cup]?.vessel;
  const vessel = vesselName && setup?.vessels?.[vesselName];
  if (vessel) return { top: vessel.top_mm, base: vessel.base_mm, depth: vessel.depth_mm, known: true };
  const volumeMm3 = (Math.max(cup.available_ml, 10) / USUAL_AVAILABLE_PART) * 1000;
  // V = pi/12 depth (top^2 + top base + base^2), the frustum of a cone
  const perDepth3 = (Math.PI / 12) * (USUAL.top ** 2 + USUAL.top * USUAL.base + USUAL.base ** 2);
  const depth = Math.cbrt(volumeMm3 / perDepth3);
  return { top: USUAL.top * depth, base: USUAL.base * depth, depth, known: false };
}

/** The part of the mix's height, from its base, at which a depletion is drawn: saturated above, bone dry at 0. */
export function heightOf(depletion, wet) {
  const top = Math.min(wet, 0) - 0.12;
  return Math.max(0, Math.min(1, (1 - depletion) / (1 - top)));
}

function halfWidth(frame, part) {
  return (frame.base + (frame.top - frame.base) * part) / 2;
}

const ROOTS = [
  [-0.12, 0.75, -0.55, 0.5, -0.8, 0.42],
  [0.1, 0.72, 0.5, 0.55, 0.82, 0.6],
  [-0.05, 0.6, -0.35, 0.3, -0.6, 0.14],
  [0.06, 0.58, 0.3, 0.3, 0.55, 0.2],
  [0, 0.5, 0.05, 0.25, -0.1, 0.06],
  [0.12, 0.78, 0.6, 0.8, 0.86, 0.84],
];

function rootPath(frame, bottom, root) {
  const [x0, y0, x1, y1, x2, y2] = root;
  const point = (x, y) => `${(x * halfWidth(frame, y)).toFixed(1)} ${(bottom - y * frame.depth).toFixed(1)}`;
  return `M${point(x0, y0)}Q${point(x1, y1)} ${point(x2, y2)}`;
}

function rootsOf(stage, frame, bottom) {
  const count = { struck: 0, white: 3, toughened: 6, circling: 6 }[stage] ?? 0;
  const paths = ROOTS.slice(0, count).map((root) => rootPath(frame, bottom, root));
  if (stage === 'circling') {
    for (const y of [0.12, 0.2, 0.34, 0.5]) {
      const w = halfWidth(frame, y) - 2;
      const level = bottom - y * frame.depth;
      paths.push(`M${-w} ${level}Q0 ${level + 7} ${w} ${level - 2}`);
    }
  }
  return paths.join('');
}

function cutting(frame, bottom) {
  const stem = bottom - frame.depth * 0.42;
  const tip = bottom - frame.depth - HEADROOM_MM + 4;
  const bud = (y, side) => `M0 ${y}q${side * 4} -1 ${side * 5} -6q${-side * 4} 0 ${-side * 5} 4`;
  return { stem: `M0 ${stem}L0 ${tip}`, buds: [bud(tip + 12, 1), bud(tip + 22, -1), bud(tip + 3, -1)].join('') };
}

function leaves(frame, bottom) {
  const tip = bottom - frame.depth - HEADROOM_MM + 4;
  const leaf = (y, side) => `M0 ${y}q${side * 3} -9 ${side * 15} -8q${-side * 2} 9 ${-side * 15} 8z`;
  return [leaf(tip + 14, 1), leaf(tip + 24, -1), leaf(tip + 5, -1)].join('');
}

/**
 * Draws a cup. `room` is {width, height} in mm of the largest cup of the bench, so that all are to scale.
 * Answers {el, update(cup)}; the drawing says nothing to a screen reader, the words beside it do.
 */
export function drawCup(frame, room) {
  const bottom = 0;
  const height = room.depth + HEADROOM_MM + 4;
  const width = room.top + 16;
  const clip = freshId('cup');
  const w0 = halfWidth(frame, 0);
  const w1 = halfWidth(frame, 1);
  const rim = bottom - frame.depth - RIM_MM;
  const wRim = halfWidth(frame, 1 + RIM_MM / frame.depth);
  const inside = `M${-w1} ${-frame.depth}L${-w0} ${bottom}L${w0} ${bottom}L${w1} ${-frame.depth}Z`;
  const plant = cutting(frame, bottom);

  const water = s('rect', { class: 'c-water', x: -w1, y: -frame.depth, width: 2 * w1, height: frame.depth + 1 });
  const surface = s('path', { class: 'c-surface' });
  const wetLine = s('path', { class: 'c-wet' });
  const dryLine = s('path', { class: 'c-dry' });
  const dueMark = s('path', { class: 'c-due' });
  const roots = s('path', { class: 'c-roots' });
  const leafPath = s('path', { class: 'c-leaf', d: leaves(frame, bottom) });
  const over = s('rect', { class: 'c-over', x: -w1, width: 2 * w1 });
  const doubt = s('text', { class: 'c-doubt', x: 0, y: -frame.depth * 0.35, 'text-anchor': 'middle' }, '?');

  const el = s(
    'svg',
    { class: 'cup-drawing', viewBox: `${-width / 2} ${-height + 3} ${width} ${height}`, 'aria-hidden': 'true', focusable: 'false' },
    s('clipPath', { id: clip }, s('path', { d: inside })),
    s('path', { class: 'c-mix', d: inside }),
    s('g', { 'clip-path': `url(#${clip})` }, water, over),
    surface,
    roots,
    s('path', { class: 'c-stem', d: plant.stem }),
    s('path', { class: 'c-bud', d: plant.buds }),
    leafPath,
    wetLine,
    dryLine,
    dueMark,
    s('path', { class: 'c-wall', 'stroke-width': WALL_MM, d: `M${-wRim} ${rim}L${-w0} ${bottom}L${w0} ${bottom}L${wRim} ${rim}` }),
    s('path', { class: 'c-rim', d: `M${-wRim - 1.5} ${rim}H${wRim + 1.5}` }),
    doubt,
  );

  const across = (part, inset = 0) => {
    const w = halfWidth(frame, part) - inset;
    return `M${-w} ${(-part * frame.depth).toFixed(1)}H${w}`;
  };

  function update(cup) {
    const known = cup.depletion !== null && cup.depletion !== undefined;
    const part = known ? heightOf(cup.depletion, cup.wet) : 0;
    const wetPart = heightOf(cup.wet, cup.wet);
    const sink = `translateY(${((1 - part) * frame.depth).toFixed(1)}px)`;
    if (water.style.transform !== sink) water.style.transform = sink;
    setAttr(surface, 'd', known && part > 0.01 ? across(part, 0.5) : '');
    setAttr(over, 'y', (-part * frame.depth).toFixed(1));
    setAttr(over, 'height', Math.max(0, (part - wetPart) * frame.depth).toFixed(1));
    setAttr(wetLine, 'd', across(wetPart));
    setAttr(dryLine, 'd', across(heightOf(cup.dry, cup.wet)));
    const due = heightOf(cup.due, cup.wet);
    const x = halfWidth(frame, due) + 1.5;
    setAttr(dueMark, 'd', `M${x} ${-due * frame.depth}l5.5 -3.500v7z`);
    setAttr(roots, 'd', rootsOf(cup.stage, frame, bottom));
    setAttr(roots, 'data-stage', cup.stage);
    setAttr(leafPath, 'class', cup.stage === 'toughened' || cup.stage === 'circling' ? 'c-leaf' : 'c-leaf none');
    setAttr(doubt, 'class', known && cup.trusted ? 'c-doubt none' : 'c-doubt');
    setAttr(el, 'data-state', cup.state);
  }
  return { el, update };
}

/** The room, in mm, that the largest of these cups needs. */
export function roomFor(frames) {
  return {
    top: Math.max(60, ...frames.map((frame) => Math.max(frame.top, frame.base))),
    depth: Math.max(60, ...frames.map((frame) => frame.depth)),
  };
}

/** A state's own sign, told apart by shape and not by colour alone. */
export function stateSign(state) {
  const shapes = {
    steady: 'M3 8.500L6.5 12L13 4.5',
    due: 'M8 3v6M8 12v1',
    watering: 'M8 2C8 2 3.5 7.5 3.5 10.200A4.5 4 0 0 0 12.5 10.200C12.5 7.5 8 2 8 2Z',
    soaking: 'M3 5q2.5 -2 5 0t5 0M3 9q2.5 -2 5 0t5 0M3 13q2.5 -2 5 0t5 0',
    wet: 'M2 6.500h12M2 10h12M2 13.500h12M8 1v3',
    dry: 'M8 2L14 13.500H2ZM8 6.500v3M8 11.500v.5',
    away: 'M3 8h9M9 4.500L12.5 8L9 11.5',
    untrusted: 'M5 6a3 3 0 1 1 4 2.700q-1 .5 -1 2M8 13v.5',
    held: 'M5.5 3v10M10.5 3v10',
    alert: 'M8 2v7.500M8 12.500v.6',
  };
  return s(
    'svg',
    { class: 'sign', viewBox: '0 0 16 16', 'aria-hidden': 'true', focusable: 'false' },
    s('path', { d: shapes[state] ?? shapes.untrusted }),
  );
}
