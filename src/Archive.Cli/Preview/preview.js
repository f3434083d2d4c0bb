// Added by `asfound preview` on the way to the browser; never published.
(() => {
  "use strict";
  const host = document.createElement("div");
  const panel = host.attachShadow({ mode: "open" });
  document.body.append(host);

  const show = async () => {
    const answer = await fetch("/.preview/diagnostics");
    panel.innerHTML = await answer.text();
  };

  const changes = new EventSource("/.preview/events");
  changes.addEventListener("site", () => location.reload());
  changes.addEventListener("diagnostics", show);
  show();
})();
