/// How much room the browser has for jobs, looked at before it hurts; and asked to keep what is there.
const LOW_BYTES = 20_000_000;

class Room {
  left = $state('');
  low = $state(false);
  async look() {
    if (!navigator.storage?.estimate) return;
    void navigator.storage.persist?.();
    const { quota = Infinity, usage = 0 } = await navigator.storage.estimate();
    this.low = quota - usage < LOW_BYTES;
    this.left = `${Math.max(0, Math.floor((quota - usage) / 1_000_000))} MB`;
  }
}
export const room = new Room();
