// The page's own workers driven by hand, as the page drives them: two chunks asked for ahead, the next work when one is done.
(() => {
  const AHEAD = 2;
  const bytesOf = (message) => {
    const head = new TextEncoder().encode(JSON.stringify(message));
    const bytes = new Uint8Array(4 + head.length);
    new DataView(bytes.buffer).setUint32(0, head.length, true);
    bytes.set(head, 4);
    return bytes;
  };
  const headOf = (bytes) => {
    const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true);
    return JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length)));
  };
  let hands = [], works = [], failed = null, reached = () => {}, stop = Infinity;

  const say = (hand, message) => {
    const bytes = bytesOf(message);
    hand.worker.postMessage(bytes, [bytes.buffer]);
  };
  const settled = (hand) => hand.over || (hand.done >= stop && hand.asked === 0);
  const look = () => { if (failed || hands.every(settled)) reached(); };
  const ask = (hand) => {
    while (!hand.over && hand.done < stop && hand.asked < AHEAD) {
      hand.asked += 1;
      say(hand, { Continue: { run: hand.run } });
    }
  };
  const next = (hand) => {
    const work = works.shift();
    hand.over = work === undefined;
    if (hand.over) return look();
    hand.run += 1;
    [hand.done, hand.total, hand.asked] = [0, 0, 0];
    say(hand, { Start: { run: hand.run, work } });
  };
  const hear = (hand, message) => {
    const [[kind, body]] = Object.entries(message);
    if (kind === "Ready") return hand.ready();
    if (kind === "Refused" || kind === "Panicked") {
      failed = JSON.stringify(message);
      hands.forEach((other) => other.begun && other.begun());
      return look();
    }
    if (body.run !== hand.run) return undefined;
    if (kind === "Done" || kind === "Answered") return next(hand);
    if (kind !== "Progress" && kind !== "Rests") return undefined;
    hand.asked = Math.max(0, hand.asked - 1);
    if (kind === "Progress") [hand.done, hand.total] = [body.done, body.total];
    if (hand.begun && kind === "Progress") hand.begun();
    if (kind === "Rests") [hand.done, hand.over] = [hand.total, true];
    ask(hand);
    return look();
  };

  globalThis.tab = {
    // Starts so many workers and waits until they listen.
    open: (count) => Promise.all(Array.from({ length: count }, () => new Promise((ready) => {
      const hand = { worker: globalThis.mistcoatWorker(), run: 0, done: 0, total: 0, asked: 0, over: true, ready };
      hand.worker.onmessage = (event) => hear(hand, headOf(event.data));
      hand.worker.onerror = (event) => { failed = event.message; look(); };
      hands.push(hand);
    }))).then(() => hands.length),
    // Hands out the works; each worker takes the next when it is done.
    start: (list) => {
      works = list;
      failed = null;
      stop = 0;
      return Promise.all(hands.map((hand) => new Promise((begun) => {
        hand.begun = () => { hand.begun = null; begun(); };
        next(hand);
        if (hand.over) begun();
      }))).then(() => true);
    },
    // Goes on until each worker has done so much of its work, or without a number until all is done; done by each, and how long [ms].
    until: (done) => new Promise((tell, refuse) => {
      const from = performance.now();
      reached = () => {
        reached = () => {};
        if (failed) refuse(new Error(failed));
        else tell([performance.now() - from, ...hands.map((hand) => hand.done)]);
      };
      stop = done ?? Infinity;
      hands.forEach(ask);
      look();
    }),
    close: () => {
      hands.forEach((hand) => hand.worker.terminate());
      [hands, works] = [[], []];
      return true;
    },
  };
  return true;
})()
