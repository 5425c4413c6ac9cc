/// Hundredths of the job's currency, as its reader writes money.
import { reader } from '../text/text.svelte';

export function money(cents: number, currency: string): string {
  const amount = new Intl.NumberFormat(reader.language, { minimumFractionDigits: 2, maximumFractionDigits: 2 }).format(Math.abs(cents) / 100);
  const sign = cents < 0 ? '−' : '';
  return /^\w{2,}$/.test(currency) ? `${sign}${amount} ${currency}` : `${sign}${currency}${amount}`;
}
