// Jobs at random, each from its number: flights of every kind of side, nosing and cover, with and without a landing.

/// Mulberry32, a published generator of a few lines: the same numbers on every machine.
function generator(seed) {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let x = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    x = (x + Math.imul(x ^ (x >>> 7), 61 | x)) ^ x;
    return ((x ^ (x >>> 14)) >>> 0) / 4294967296;
  };
}

/// The text of job number `number`.
export function randomJob(number) {
  const next = generator(number);
  const chance = (part) => next() < part;
  const between = (least, most) => least + Math.floor(next() * (most - least + 1));
  const one = (...choices) => choices[between(0, choices.length - 1)];

  const inch = chance(0.5);
  const sixteenths = (n) => `${Math.floor(n / 16)} ${n % 16}/16"`;
  /// A length from `least` to `most` mm, as a tape of the job's reads it.
  const mm = (least, most) =>
    inch ? sixteenths(between(Math.ceil((least / 25.4) * 16), Math.floor((most / 25.4) * 16))) : `${between(least * 10, most * 10) / 10} mm`;

  const side = () => one('wall', 'skirt', { open: { overhang: mm(12, 60), return: mm(12, 50) } });
  const thickness = between(18, 50);
  const profile = one(
    { profile: 'half-round' },
    { profile: 'square', arris_radius: `${between(0, thickness * 5) / 10} mm` },
    { profile: 'bevelled', bevel: `${between(3, thickness - 8)} mm` },
  );
  const risers = between(1, 6);
  const width = between(600, 1400);
  const flight = {
    name: 'flight', risers, rise: mm(140, 200), going: mm(230, 330), width: `${width} mm`,
    nosing: { projection: mm(0, 32), thickness: `${thickness} mm`, ...profile },
    left: side(), right: side(), pile: 'down', cover: one('waterfall', 'wrapped'), carpet: 'goods',
    landing_edge: mm(80, 140), join: one(1, 1, 2, { at_most: 3 }), open_risers: chance(0.1),
    steps: { [between(1, risers)]: { rise: mm(140, 200), left: side(), right: side() } },
  };

  /// A floor out of square, its sides and diagonals off by up to 2 mm.
  const floor = () => {
    const off = () => between(-60, 60);
    const [a, b, c, d] = [[-80 + off(), 0], [width + 80 + off(), 0], [width + 80 + off(), 900 + off()], [-80 + off(), 900 + off()]];
    const tape = (p, q) => `${Math.round(Math.hypot(p[0] - q[0], p[1] - q[1])) + between(-2, 2)} mm`;
    return {
      name: 'floor', carpet: 'goods', front: tape(a, b), right: tape(b, c), back: tape(c, d), left: tape(d, a),
      diagonal_from_front_left: tape(a, c), diagonal_from_front_right: tape(b, d),
    };
  };
  const floors = chance(0.4) ? [floor()] : [];
  const top = flight.steps[risers] ?? flight; // a landing in one piece has closed sides at its top step
  const closed = [top.left, top.right].every((side) => typeof side === 'string');
  if (floors.length > 0 && chance(0.6)) flight.landing = { floor: 'floor', from_left: '15 mm', joined: chance(0.5) && closed };

  const goods = {
    id: 'goods', name: 'Goods', widths: [mm(3400, 3700), mm(3900, 5000)], selvage: mm(0, 20), roll_length: '30 m',
    sold_in: '10 cm', backing: mm(1, 4), thickness: mm(6, 14),
  };
  if (chance(0.3)) goods.pattern = { width: mm(150, 600), length: mm(150, 600), match: one('set', 'half-drop') };
  return JSON.stringify({
    treadfold: 1, units: inch ? 'in' : 'mm', paper: one('letter', 'a4'), language: number % 3 === 0 ? 'es' : 'en', code: one('IRC', 'IBC', 'UK private'),
    site: { title: `Job ${number}` },
    stairs: [{ name: 'Stair', flights: [flight], floors }],
    carpets: [goods],
    cushion: { name: 'Cushion', thickness: mm(5, 12), roll_width: '1.37 m', roll_length: '11 m' },
    strip: { stock_length: '1.5 m', pieces_per_case: 100, end_angle: between(45, 90) },
    finished_floors: { foot: '0', landing: '18 mm' },
  }, null, 1);
}
