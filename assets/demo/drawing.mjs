/**
 * The map that a boy in the story draws, as a PNG: no input but two fonts, the same bytes every time. The shaky hand
 * comes from sums of sines, not from chance.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { initWasm, Resvg } from '@resvg/resvg-wasm';

const WIDTH = 1500;
const HEIGHT = 1020;

/** What the picture shows, for readers who do not see it. */
export const ALT =
  'Hand-drawn map: two lines of posts cross the sands from Sallock to the island of Hether; ' +
  'below them, on a bank, lie the street and church of Old Hether.';

/** @returns {Promise<Uint8Array>} */
export async function drawMap() {
  const require = createRequire(import.meta.url);
  await initWasm(readFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm')));
  const font = (/** @type {string} */ path) =>
    new Uint8Array(readFileSync(require.resolve(`@expo-google-fonts/eb-garamond/${path}`)));
  const fontBuffers = [
    font('400Regular/EBGaramond_400Regular.ttf'),
    font('400Regular_Italic/EBGaramond_400Regular_Italic.ttf'),
  ];
  const image = new Resvg(mapSvg(), { font: { fontBuffers, defaultFontFamily: 'EB Garamond' } });
  return image.render().asPng();
}

/** @param {number} x @param {number} y */
function shake(x, y) {
  const dx = 3.1 * Math.sin(x * 0.071 + y * 0.013) + 1.7 * Math.sin(y * 0.19 + 2);
  const dy = 2.9 * Math.sin(y * 0.083 + x * 0.017) + 1.9 * Math.sin(x * 0.16 + 1);
  return `${(x + dx).toFixed(1)} ${(y + dy).toFixed(1)}`;
}

/** A line through the points as a steady but human hand draws it. @param {readonly (readonly [number, number])[]} points */
function stroke(points, close = false) {
  const path = [];
  const ends = close ? [...points, points[0]] : points;
  for (let i = 1; i < ends.length; i += 1) {
    const [x0, y0] = ends[i - 1] ?? [0, 0];
    const [x1, y1] = ends[i] ?? [0, 0];
    const steps = Math.max(1, Math.round(Math.hypot(x1 - x0, y1 - y0) / 14));
    for (let k = i === 1 ? 0 : 1; k <= steps; k += 1) {
      path.push(shake(x0 + ((x1 - x0) * k) / steps, y0 + ((y1 - y0) * k) / steps));
    }
  }
  return `M${path.join(' L')}${close ? ' Z' : ''}`;
}

/** @param {string} d */
const ink = (d, width = 3.2) =>
  `<path d="${d}" fill="none" stroke="#111" stroke-width="${width}" stroke-linecap="round"/>`;

/** @param {number} x @param {number} y @param {string} text @param {number} size */
const label = (x, y, text, size, style = 'normal') =>
  `<text x="${x}" y="${y}" font-family="EB Garamond" font-size="${size}" font-style="${style}" fill="#111">${text}</text>`;

/** @param {number} cx @param {number} cy @param {number} rx @param {number} ry */
function oval(cx, cy, rx, ry, bumps = 5) {
  /** @type {[number, number][]} */
  const points = [];
  for (let i = 0; i < 60; i += 1) {
    const angle = (i / 60) * 2 * Math.PI;
    const swell = 1 + 0.07 * Math.sin(bumps * angle) + 0.04 * Math.cos(3 * angle + 1);
    points.push([cx + rx * swell * Math.cos(angle), cy + ry * swell * Math.sin(angle)]);
  }
  return points;
}

function coasts() {
  /** @type {[number, number][]} */
  const mainland = [
    [250, 60],
    [290, 150],
    [235, 250],
    [300, 330],
    [325, 420],
    [285, 520],
    [330, 610],
    [250, 720],
    [275, 830],
    [200, 950],
  ];
  const hatch = mainland.flatMap(([x, y], i) => {
    const [x1, y1] = mainland[i + 1] ?? [x, y];
    return [0, 0.25, 0.5, 0.75].map((t) => {
      const [hx, hy] = [x + (x1 - x) * t, y + (y1 - y) * t];
      return ink(
        stroke([
          [hx - 10, hy + 4],
          [hx - 44, hy + 10],
        ]),
        1.8,
      );
    });
  });
  return [
    ink(stroke(mainland), 4),
    ...hatch,
    ink(stroke(oval(1270, 330, 165, 215), true), 4),
    ink(stroke(oval(1270, 300, 70, 90, 4), true), 1.8),
  ];
}

/** Thirty-two pairs of posts; the nineteenth post, which is in the tenth pair, is drawn with special care. */
function wade() {
  const out = [];
  for (let pair = 0; pair < 32; pair += 1) {
    const x = 342 + pair * 24.4;
    const y = 432 + 26 * Math.sin(pair / 5.2) - pair * 1.9;
    const careful = pair === 9;
    out.push(
      ink(
        stroke([
          [x, y - 20],
          [x, y],
        ]),
        careful ? 7 : 3,
      ),
      ink(
        stroke([
          [x + 4, y + 16],
          [x + 4, y + 36],
        ]),
        3,
      ),
    );
    if (careful)
      out.push(
        ink(
          stroke(
            [
              [x - 9, y - 22],
              [x, y - 34],
              [x + 9, y - 22],
            ],
            true,
          ),
          3,
        ),
      );
  }
  return out;
}

function oldHether() {
  const out = [ink(stroke(oval(800, 730, 330, 118, 6), true), 2.2)];
  for (let house = 0; house < 11; house += 1) {
    const x = 565 + house * 36;
    for (const y of [690, 752]) {
      const gone = (house * 7 + y) % 5 === 0;
      const corners = /** @type {[number, number][]} */ ([
        [x, y],
        [x + 21, y],
        [x + 21, y + 19],
        [x, y + 19],
      ]);
      out.push(ink(stroke(gone ? corners.slice(0, 3) : corners, !gone), 2.2));
    }
  }
  out.push(
    ink(
      stroke(
        [
          [1000, 700],
          [1062, 700],
          [1062, 758],
          [1000, 758],
        ],
        true,
      ),
      4,
    ),
  );
  out.push(
    ink(
      stroke([
        [1031, 700],
        [1031, 652],
      ]),
      3,
    ),
    ink(
      stroke([
        [1016, 668],
        [1046, 668],
      ]),
      3,
    ),
  );
  for (const [x, y] of /** @type {[number, number][]} */ ([
    [520, 640],
    [560, 622],
    [1090, 640],
    [700, 640],
    [900, 830],
    [620, 826],
  ])) {
    out.push(ink(`M${x - 13} ${y - 6} Q${x - 6} ${y - 13} ${x} ${y} Q${x + 6} ${y - 13} ${x + 13} ${y - 6}`, 2));
  }
  return out;
}

/** The porpoise, with the square cut out of its side. @param {number} x @param {number} y */
function porpoise(x, y) {
  const body = `M${x} ${y} q40 -34 92 -10 q22 -20 34 -16 q-8 16 -6 22 q4 8 12 20 q-18 2 -40 -14 q-50 22 -92 -2 z`;
  return [
    ink(body, 3),
    ink(`M${x + 44} ${y - 23} q8 -22 20 -24 q-2 14 4 24`, 3),
    ink(`M${x + 40} ${y - 6} h15 v14 h-15 z`, 2.2),
    `<circle cx="${x + 15}" cy="${y - 6}" r="2.6" fill="#111"/>`,
  ];
}

function town() {
  const out = [];
  for (let row = 0; row < 4; row += 1) {
    for (let house = 0; house < 3; house += 1) {
      const x = 70 + house * 56 + row * 9;
      const y = 360 + row * 46;
      out.push(
        ink(
          stroke(
            [
              [x, y],
              [x, y - 22],
              [x + 17, y - 36],
              [x + 34, y - 22],
              [x + 34, y],
            ],
            true,
          ),
          2.2,
        ),
      );
    }
  }
  return out;
}

function mapSvg() {
  const compass = [
    ink(
      stroke([
        [1335, 905],
        [1335, 775],
      ]),
      3,
    ),
    ink('M1320 800 L1335 768 L1350 800', 3),
    label(1322, 755, 'N', 40),
  ];
  const scale = [
    ink(
      stroke([
        [330, 950],
        [630, 950],
      ]),
      3,
    ),
    ink('M330 938 V962 M480 942 V958 M630 938 V962', 3),
    label(410, 998, 'half a mile', 32, 'italic'),
  ];
  const labels = [
    label(42, 300, 'SALLOCK', 38),
    label(1180, 452, 'HETHER', 46),
    label(600, 330, 'The Wade', 44, 'italic'),
    label(642, 528, 'No. 19', 30, 'italic'),
    label(690, 905, 'Old Hether', 46, 'italic'),
    label(856, 800, 'St. Werrin', 34, 'italic'),
    label(560, 150, 'The Marrable', 52, 'italic'),
    label(1244, 310, 'goat', 30, 'italic'),
  ];
  const ripples = [170, 215, 935, 970].map((y, i) =>
    ink(
      stroke([
        [520 + i * 60, y],
        [740 + i * 70, y + 6],
        [1000 + i * 30, y - 4],
      ]),
      1.6,
    ),
  );
  const leader = ink(
    stroke([
      [668, 500],
      [572, 470],
    ]),
    1.6,
  );
  const parts = [
    ...coasts(),
    ...town(),
    ...wade(),
    ...oldHether(),
    ...porpoise(395, 540),
    ...compass,
    ...scale,
    ...ripples,
    leader,
    ...labels,
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}"><rect width="100%" height="100%" fill="#fff"/>${parts.join('')}</svg>`;
}
