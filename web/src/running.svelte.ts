// Lets the log run by itself: a step, a pause long enough to see the patch swing open, and on.

import type { Room } from "./room.svelte";

const PAUSE = 560;

/** The tape, running or held. */
export class Running {
  on = $state(false);
  #next: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly room: Room) {}

  /** Runs, from the start if it stood at the end; or holds. */
  toggle(): void {
    if (this.on) {
      this.hold();
      return;
    }
    if (this.room.log.entries.length === 0) return;
    if (this.room.atTip) this.room.goTo(0);
    this.on = true;
    this.#step();
  }

  /** Stands still. */
  hold(): void {
    this.on = false;
    clearTimeout(this.#next);
  }

  #step(): void {
    const { room } = this;
    if (room.atTip) {
      this.hold();
      return;
    }
    room.goTo(room.at + 1);
    const shown = room.drawingUrl ? room.drawing(room.drawingUrl) : Promise.resolve("");
    void shown
      .catch(() => "")
      .then(() => {
        if (this.on) this.#next = setTimeout(() => this.#step(), PAUSE);
      });
  }
}
