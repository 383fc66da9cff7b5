// Answers already fetched. What is read at a step never changes, so it is fetched once; the answers
// longest unused are let go.

const KEPT = 96;

/** Remembers what `fetched` brought, for the keys last asked for, 96 of them unless told. Failures are forgotten. */
export function remembering<T>(fetched: (key: string) => Promise<T>, kept = KEPT) {
  const known = new Map<string, Promise<T>>();
  return (key: string): Promise<T> => {
    const before = known.get(key);
    known.delete(key);
    const answer = before ?? fetched(key);
    known.set(key, answer);
    if (!before) answer.catch(() => known.delete(key));
    for (const oldest of known.keys()) {
      if (known.size <= kept) break;
      known.delete(oldest);
    }
    return answer;
  };
}
