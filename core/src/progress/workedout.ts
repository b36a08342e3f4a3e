/** What was worked out of results is remembered with them, so that the same is not worked out again. */

interface WorkedOut<Value> {
  readonly results: readonly object[];
  readonly of: string;
  readonly value: Value;
}

/** @returns gives what `work` makes of results, by the last of them: anew only when any of them, or `of`, is another than the last time. */
export function rememberedBy<Value>(): (results: readonly object[], of: string, work: () => Value) => Value {
  const known = new WeakMap<object, WorkedOut<Value>>();
  return (results, of, work) => {
    const last = results.at(-1);
    const before = last && known.get(last);
    const isSame = before?.of === of && before.results.length === results.length && before.results.every((result, k) => result === results[k]);
    if (isSame) return before.value;
    const value = work();
    if (last) known.set(last, { results, of, value });
    return value;
  };
}
