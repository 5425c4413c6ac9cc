/// A way in one sentence: what is done, and what it comes to.
import { shown, type Units } from '../app/length';
import { said } from '../text/said.svelte';
import { t } from '../text/text.svelte';
import type { Way } from './recut';

export const outcome = (way: Way, units: Units) =>
  `${said(way.words)}: ${way.length_to_buy_mm > 0 ? t('cut-more-to-buy', { length: shown(way.length_to_buy_mm, units) }) : t('cut-fits')}`;
