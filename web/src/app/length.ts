/// How a millimetre value of the plan is shown: rounded for the eye alone, never for the knife.
import { numbered } from '../text/text.svelte';

export type Units = 'in' | 'mm' | 'cm';
const SPACE = '\u00a0'; // a length is never broken over two lines
const SIXTEENTH_MM = 25.4 / 16;

/// 1082.675 is 3' 6 5/8" or 1,083 mm or 108.3 cm; `plain`, as on a piece: 42 5/8".
export function shown(mm: number, units: Units, plain = false): string {
  if (units === 'mm') return `${numbered(mm)}${SPACE}mm`;
  if (units === 'cm') return `${numbered(mm / 10, 1)}${SPACE}cm`;
  const all = Math.round(Math.abs(mm) / SIXTEENTH_MM);
  const feet = plain ? 0 : Math.floor(all / 192), inches = Math.floor(all / 16) - 12 * feet;
  let part = all % 16, whole = 16;
  while (part && part % 2 === 0) (part /= 2), (whole /= 2);
  const small = [inches || feet || !part ? inches : '', part ? `${part}/${whole}` : ''].filter((x) => x !== '').join(SPACE);
  return `${mm < 0 && all ? '−' : ''}${feet ? `${feet}'${SPACE}` : ''}${small}"`;
}

/// 10.4 is 12.4 sq yd where one thinks in inches, else 10.4 m².
export const shownArea = (m2: number, units: Units) => (units === 'in' ? `${numbered(m2 / 0.83612736, 1)}${SPACE}sq${SPACE}yd` : `${numbered(m2, 1)}${SPACE}m²`);

/// Of a piece: across and along.
export const size = (width_mm: number, length_mm: number, units: Units) => `${shown(width_mm, units, true)} × ${shown(length_mm, units, true)}`;
