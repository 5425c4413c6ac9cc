/// Keeps the screen awake. The system lets go whenever the page is hidden, so it is asked again when it is seen.
export class Awake {
  state = $state<'asked' | 'on' | 'none'>('asked');
  #lock?: WakeLockSentinel;
  #ended = false;

  constructor() {
    document.addEventListener('visibilitychange', this.#ask);
    void this.#ask();
  }
  #ask = async () => {
    if (this.#ended || document.visibilityState !== 'visible') return;
    try {
      if (!navigator.wakeLock) throw new Error('there is no such thing here');
      this.#lock = await navigator.wakeLock.request('screen');
      this.state = 'on';
      this.#lock.addEventListener('release', () => { if (document.visibilityState === 'visible' && !this.#ended) this.state = 'none'; });
      if (this.#ended) await this.#lock.release();
    } catch {
      this.state = 'none'; // no such thing here, or the battery is low
    }
  };
  end() {
    this.#ended = true;
    document.removeEventListener('visibilitychange', this.#ask);
    void this.#lock?.release();
  }
}
