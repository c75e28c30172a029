/* A live preview alone: the page comes again as soon as something it may rest on was saved. */
(() => {
  const { version } = document.currentScript.dataset;
  const ask = async () => {
    try {
      const answer = await fetch(`/-preview/changed?since=${version}`, { cache: "no-store" });
      if (answer.status === 205) return location.reload();
      setTimeout(ask, answer.ok ? 0 : 2000);
    } catch {
      setTimeout(ask, 2000);
    }
  };
  ask();
})();
