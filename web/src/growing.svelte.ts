// A job of the program: growing that goes on while the page is looked at. Begun or found again,
// watched, stopped.

import * as api from "./api/client";
import { Refusal } from "./api/client";
import type { Answer, Ask, Job } from "./api/types";

/** How often a job is looked at, in milliseconds. */
const PAUSE = 250;

/** At most one job at a time belongs to a page. */
export class Growing {
  job = $state.raw<Job | null>(null);

  /** Begins a job and waits for its end; what it came to, or why it was refused. */
  async run(quilt: string, head: string, tip: string | null, what: Ask): Promise<Answer> {
    return this.follow(await api.begin(quilt, head, tip, what));
  }

  /** A job of that quilt that goes on already: this page began it before it was opened anew. */
  async found(quilt: string): Promise<Job | null> {
    const { jobs } = await api.jobs();
    return jobs.findLast((job) => job.quilt === quilt && !job.ended) ?? null;
  }

  /** Waits for the end of a job. */
  async follow(job: Job): Promise<Answer> {
    try {
      this.job = job;
      while (!this.job.ended) {
        await new Promise((again) => setTimeout(again, PAUSE));
        this.job = await api.job(this.job.job);
      }
      const { answer, error, status } = this.job;
      if (answer) return answer;
      throw new Refusal(
        error?.message ?? "It ended without a reason.",
        error?.hint ?? null,
        status ?? 0,
      );
    } finally {
      this.job = null;
    }
  }

  /** Asks it to stop; what has grown by then is kept. */
  async stop(): Promise<void> {
    if (!this.job) return;
    const seen = await api.stop(this.job.job);
    if (this.job && !this.job.ended) this.job = seen;
  }
}
