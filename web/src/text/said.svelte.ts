/// What core says, in the reader's language: English as it comes, another by its catalogue, which is loaded once it is read.
import { matcher } from './matcher';
import { reader } from './text.svelte';

class Spanish {
  said = $state.raw<ReturnType<typeof matcher>>();
  #asked = false;
  ask() {
    if (this.#asked) return;
    this.#asked = true;
    import('../../../core/text/rooms.es.json').then(({ default: catalogue }) => (this.said = matcher(catalogue)), () => (this.#asked = false));
  }
}
const spanish = new Spanish();

export function said(text: string): string {
  if (reader.language === 'en') return text;
  spanish.ask();
  return spanish.said?.(text).text ?? text;
}
