// What the language server takes of Node, as a worker of a browser has it: a clock, the next turn of the loop, the length of a text in bytes.
// To be loaded before all else. Invariant: nothing that is there already is taken away.
interface Worker {
  process?: unknown;
  setImmediate?: unknown;
  Buffer?: unknown;
}

const worker = globalThis as unknown as Worker;

worker.process ??= {
  hrtime() {
    const now = performance.now();
    return [Math.floor(now / 1000), (now % 1000) * 1e6];
  },
};

worker.Buffer ??= {
  byteLength(text: string) {
    let bytes = 0;
    for (const sign of text) {
      const point = sign.codePointAt(0) ?? 0;
      bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    }
    return bytes;
  },
};

worker.setImmediate ??= (work: () => void) => setTimeout(work, 0);

export {};
