// Added by `asfound preview` on the way to the browser; never published.
(() => {
  "use strict";
  // Which site this page is of: where another is there by now, that is the first event.
  const { site } = document.currentScript.dataset;
  const host = document.createElement("div");
  const panel = host.attachShadow({ mode: "open" });
  document.body.append(host);

  // An answer that comes after a later one is old.
  let asked = 0;
  const show = async () => {
    const mine = ++asked;
    const answer = await fetch("/.preview/diagnostics");
    const text = await answer.text();
    if (mine === asked) panel.innerHTML = text;
  };

  // A reload that a change brings shows the same part of the page, however browsers do it otherwise.
  const kept = "asfound-preview-place";
  const [address, x, y] = JSON.parse(sessionStorage.getItem(kept) ?? "[]");
  sessionStorage.removeItem(kept);
  let back = null;
  if (address === location.href) {
    history.scrollRestoration = "manual";
    back = { left: x, top: y, behavior: "instant" };
    scrollTo(back);
    addEventListener("load", () => {
      scrollTo(back);
      back = null;
    });
  }

  // A page that is still loading is not yet as high as the place that it is to go back to.
  const reload = () => {
    const place = back ?? { left: scrollX, top: scrollY };
    sessionStorage.setItem(kept, JSON.stringify([location.href, place.left, place.top]));
    location.reload();
  };

  const changes = new EventSource(`/.preview/events?site=${site}`);
  changes.addEventListener("site", reload);
  changes.addEventListener("diagnostics", show);

  // Asked once changes are listened to, so that none falls in between; again where the connection was lost.
  changes.addEventListener("open", show);
})();
