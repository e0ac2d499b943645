// A WeakMap that forgets all when a test is run anew.

/** The same for whoever reads this file again. */
const ages = globalThis as { splitpinAge?: number };

export const age = (): number => ages.splitpinAge ?? 0;

export function forget(): void {
  ages.splitpinAge = age() + 1;
}

export class Forgetful<K extends WeakKey, V> {
  readonly #known = new WeakMap<K, { readonly age: number; readonly value: V }>();

  get(key: K): V | undefined {
    const it = this.#known.get(key);
    return it?.age === age() ? it.value : undefined;
  }

  has(key: K): boolean {
    return this.#known.get(key)?.age === age();
  }

  set(key: K, value: V): this {
    this.#known.set(key, { age: age(), value });
    return this;
  }

  delete(key: K): boolean {
    return this.#known.delete(key);
  }
}
