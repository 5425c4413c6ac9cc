/// Light, dark, or sun: the greatest contrast, for a screen in full daylight.
export const looks = ['auto', 'light', 'dark', 'sun'] as const;
export type Look = (typeof looks)[number];

const kept = 'treadfold.look';
const dark = matchMedia('(prefers-color-scheme: dark)');
const more = matchMedia('(prefers-contrast: more)');

class Chosen {
  look = $state<Look>((localStorage.getItem(kept) as Look | null) ?? 'auto');
  choose(look: Look) {
    this.look = look;
    localStorage.setItem(kept, look);
    show();
  }
}
export const chosen = new Chosen();
function show() {
  const { look } = chosen;
  document.documentElement.dataset.look = look !== 'auto' ? look : more.matches ? 'sun' : dark.matches ? 'dark' : 'light';
}
show();
for (const query of [dark, more]) query.addEventListener('change', show);
