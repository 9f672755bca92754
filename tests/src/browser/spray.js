// Sprays passes with synthetic pointer events, a move a frame; each takes `ms`.
window.spray = (kind, count, ms, letGo) => new Promise((done) => {
  const stage = document.querySelector('#hand-stage');
  const film = stage.querySelector('.hand-film').getBoundingClientRect();
  const send = (type, x, y, on) => stage.dispatchEvent(new PointerEvent(type, {
    bubbles: true, cancelable: true, clientX: x, clientY: y, pointerId: 7, pointerType: kind, isPrimary: true,
    button: type === 'pointermove' ? -1 : 0, buttons: on ? 1 : 0, pressure: on ? 0.9 : 0 }));
  const before = 90;
  let pass = 0, start = null, down = false;
  const frame = (now) => {
    start ??= now;
    const share = (now - start) / ms;
    const y = film.top + film.height * pass / Math.max(1, count - 1);
    const way = Math.min(1, share) * (film.width + 2 * before) - before;
    const x = pass % 2 ? film.right - way : film.left + way;
    if (!down) { send('pointerdown', x, y, true); down = true; }
    send('pointermove', x, y, true);
    if (share >= 1) {
      if (letGo || pass + 1 === count) { send('pointerup', x, y, false); down = false; }
      pass += 1;
      start = now;
      if (pass === count) return done(true);
    }
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
});
