([least, wantsTable]) => {
  // What a reader's eye meets in the drawings of this page, from what the browser has set: letters too small, letters over each other, letters
  // beyond the sheet, letters and lines too faint for their ground, things that no list beside the drawing names. Returns sentences; none where all is well.
  const faults = [];
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 1;
  const pen = canvas.getContext("2d", { willReadFrequently: true });

  // Any CSS colour as red, green, blue (0 to 255) and alpha (0 to 1).
  const known = new Map();
  const rgba = css => {
    if (known.has(css)) return known.get(css);
    pen.clearRect(0, 0, 1, 1);
    pen.fillStyle = "#000";
    pen.fillStyle = css;
    pen.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data;
    known.set(css, [r, g, b, a / 255]);
    return known.get(css);
  };
  const over = (top, opacity, ground) => ground.map((under, i) => (top[i] * top[3] * opacity) + (under * (1 - (top[3] * opacity))));

  // WCAG 2.2, relative luminance and contrast ratio.
  const luminance = ([r, g, b]) => {
    const part = c => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
    return (0.2126 * part(r)) + (0.7152 * part(g)) + (0.0722 * part(b));
  };
  const contrast = (a, b) => {
    const [x, y] = [luminance(a), luminance(b)];
    return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
  };

  const groundOf = element => {
    let ground = [255, 255, 255];
    const above = [];
    for (let at = element; at; at = at.parentElement) above.unshift(at);
    for (const at of above) ground = over(rgba(getComputedStyle(at).backgroundColor), 1, ground);
    return ground;
  };
  const opacities = new Map();
  const opacityOf = (element, svg) => {
    if (!element || element === svg) return 1;
    if (!opacities.has(element)) opacities.set(element, +getComputedStyle(element).opacity * opacityOf(element.parentElement, svg));
    return opacities.get(element);
  };
  const isShown = element => element.getClientRects().length > 0 && getComputedStyle(element).visibility === "visible";
  const holds = (rect, x, y) => x >= rect.left && x <= rect.right && y >= rect.top && y <= rect.bottom;
  // Boxes of letters hold a blank above and below: a quarter off on either side is what is inked.
  const inkOf = (text, rect) => {
    const [x, y] = text.hasAttribute("transform") ? [rect.width * 0.25, 0.5] : [0.5, rect.height * 0.25];
    return { text, left: rect.left + x, right: rect.right - x, top: rect.top + y, bottom: rect.bottom - y };
  };
  const says = text => `“${text.textContent.trim()}”`;

  for (const svg of document.querySelectorAll(".drawing svg")) {
    if (!isShown(svg) || svg.closest(".code")) continue;
    const name = svg.getAttribute("aria-label");
    const told = fault => { if (faults.length < 40) faults.push(`${name}: ${fault}`); };
    if (!svg.querySelector("title") || !svg.querySelector("desc")) told("has no title or no description");
    const paper = groundOf(svg);
    const sheet = svg.getBoundingClientRect();
    const scale = svg.getScreenCTM().a;
    // What letters may stand on; what it looks like is asked only where a letter does.
    const shapes = [...svg.querySelectorAll("rect, circle")].filter(isShown).map(element => ({ element, rect: element.getBoundingClientRect() }));
    const texts = [...svg.querySelectorAll("text")].filter(text => isShown(text) && text.textContent.trim())
      .map(text => ({ text, rect: text.getBoundingClientRect(), size: parseFloat(getComputedStyle(text).fontSize) * scale }));

    for (const { text, rect, size } of texts) {
      if (size < least - 0.05) told(`${says(text)} is set ${size.toFixed(1)} px high`);
      const ink = inkOf(text, rect);
      if (ink.left < sheet.left || ink.right > sheet.right || ink.top < sheet.top || ink.bottom > sheet.bottom) told(`${says(text)} goes beyond the sheet`);
      const [x, y] = [(rect.left + rect.right) / 2, (rect.top + rect.bottom) / 2];
      let ground = paper;
      for (const { element, rect } of shapes) {
        if (!holds(rect, x, y) || !(element.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) continue;
        const { fill, fillOpacity } = getComputedStyle(element);
        if (fill !== "none") ground = over(rgba(fill), +fillOpacity * opacityOf(element, svg), ground);
      }
      const style = getComputedStyle(text);
      const ratio = contrast(over(rgba(style.fill), opacityOf(text, svg) * +style.fillOpacity, ground), ground);
      if (ratio < 4.5) told(`${says(text)} stands out ${ratio.toFixed(2)} to 1`);
    }

    const inked = texts.map(({ text, rect }) => inkOf(text, rect)).sort((a, b) => a.left - b.left);
    for (let i = 0; i < inked.length; i++) {
      for (let j = i + 1; j < inked.length && inked[j].left < inked[i].right; j++) {
        if (inked[i].top < inked[j].bottom && inked[j].top < inked[i].bottom) told(`${says(inked[i].text)} lies over ${says(inked[j].text)}`);
      }
    }

    for (const line of svg.querySelectorAll(".heavy, .medium, .fine, .way, .box")) {
      const style = getComputedStyle(line);
      if (!isShown(line) || style.stroke === "none" || line.closest(".matrix")) continue;
      const ratio = contrast(over(rgba(style.stroke), opacityOf(line, svg) * +style.strokeOpacity, paper), paper);
      if (ratio < 3) told(`a line of class ${line.getAttribute("class")} stands out ${ratio.toFixed(2)} to 1`);
    }
  }

  // A list or table beside the drawing leads to all that the drawing leads to.
  const beside = new Set([...document.querySelectorAll("main a[href]")].filter(a => !a.closest("svg")).map(a => a.href));
  // A list that goes on on another page names the rest there.
  const goesOn = link => link.closest(".section") && document.querySelector("nav.sheets a[rel=next]");
  for (const link of wantsTable ? document.querySelectorAll(":is(.plan:not(.inset), .elevation, .section) svg a[href]") : []) {
    const href = link.href.baseVal;
    const isBeside = href.startsWith("#") ? document.getElementById(decodeURIComponent(href.slice(1))) : beside.has(new URL(href, document.baseURI).href);
    if (!isBeside && !goesOn(link) && faults.length < 40) faults.push(`${link.getAttribute("aria-label")} is drawn, and no list beside the drawing names it`);
  }

  return { faults, texts: document.querySelectorAll(".drawing svg text").length };
}
