// Letters, targets and tables of a page, measured as they are drawn. One function, run in the page.
() => {
  const LEAST = 24; // of a target [px]: WCAG 2.2, 2.5.8
  const NEAR = 0.05; // by which a rectangle may be off [px]
  const RAGGED = 1.5; // by which figures of a column may end beside each other [px]

  /** Whether it is seen, and not only there for a screen reader. */
  const shown = (one) => {
    if (!one.checkVisibility({ visibilityProperty: true })) return false;
    for (let at = one; at; at = at.parentElement) {
      if (getComputedStyle(at).clipPath.startsWith("inset(50%")) return false;
    }
    const { width, height } = one.getBoundingClientRect();
    return width > 1 && height > 1;
  };
  const called = (one) => {
    const classes = [...one.classList].map((name) => `.${name}`).join("");
    const says = (one.innerText ?? one.textContent ?? "").trim() || one.ariaLabel || one.value || "";
    return `${one.tagName.toLowerCase()}${one.id && `#${one.id}`}${classes} "${says.slice(0, 40)}"`;
  };

  // Letters: of an element with text of its own, and of a field with what is typed in it. Those of
  // a picture are as large as its scale on the screen makes them.
  const SILENT = "script, style, template, option, datalist, title, desc, metadata";
  const TYPED = "input:not([type=hidden], [type=checkbox], [type=radio], [type=range]), select, textarea";
  const letters = () => {
    const found = new Map();
    for (const one of document.body.querySelectorAll("*")) {
      if (one.matches(SILENT)) continue;
      const says = [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
      if ((!says && !one.matches(TYPED)) || !shown(one)) continue;
      const picture = one.closest("svg") !== null;
      let size = parseFloat(getComputedStyle(one).fontSize);
      if (picture) {
        const { a, b, c, d } = one.getScreenCTM();
        size *= Math.sqrt(Math.abs(a * d - b * c));
      }
      size = Math.round(10 * size) / 10;
      const large = one.matches(".figures .large");
      const key = [size, picture, large, one.tagName, one.getAttribute("class")].join(" ");
      if (!found.has(key)) found.set(key, { size, picture, large, what: called(one) });
    }
    return [...found.values()];
  };

  // Targets: 24 by 24 px, or so far from their neighbours that a circle of 24 px about the middle
  // meets neither another target nor the circle of another small one. A word of a sentence is as
  // high as its line; what is scrolled by itself is held only against its own.
  const KINDS = 'button, a[href], input:not([type=hidden]), select, textarea, summary, [role=button], [tabindex="0"]';
  const scroller = (one) => {
    let at = one.parentElement;
    while (at && !/auto|scroll/.test(getComputedStyle(at).overflow)) at = at.parentElement;
    return at;
  };
  const isWord = (one) => {
    if (getComputedStyle(one).display !== "inline") return false;
    let at = one.parentElement;
    while (getComputedStyle(at).display === "inline") at = at.parentElement;
    return at.innerText.trim().length > one.innerText.trim().length;
  };
  const target = (one) => {
    const isTicked = one.matches("[type=checkbox], [type=radio]");
    const labels = isTicked ? [...one.labels].filter(shown) : []; // pressed, they tick it too
    const boxes = [one, ...labels].map((each) => each.getBoundingClientRect());
    const left = Math.min(...boxes.map((box) => box.left));
    const top = Math.min(...boxes.map((box) => box.top));
    const right = Math.max(...boxes.map((box) => box.right));
    const bottom = Math.max(...boxes.map((box) => box.bottom));
    const small = Math.min(right - left, bottom - top) < LEAST - NEAR;
    const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
    return { one, left, top, right, bottom, ...middle, small, room: scroller(one) };
  };
  const isClear = (one, other) => {
    const x = Math.max(other.left - one.x, one.x - other.right, 0);
    const y = Math.max(other.top - one.y, one.y - other.bottom, 0);
    const between = Math.hypot(one.x - other.x, one.y - other.y);
    return Math.hypot(x, y) >= LEAST / 2 - NEAR && (!other.small || between >= LEAST - NEAR);
  };
  const crowded = () => {
    const targets = [...document.querySelectorAll(KINDS)]
      .filter((one) => !one.disabled && shown(one) && !isWord(one))
      .map(target);
    return targets.filter(({ small }) => small).flatMap((one) => {
      const near = targets.find((other) => other !== one && other.room === one.room
        && !other.one.contains(one.one) && !one.one.contains(other.one) && !isClear(one, other));
      const size = `${(one.right - one.left).toFixed(1)} x ${(one.bottom - one.top).toFixed(1)}`;
      return near ? [`${called(one.one)}: ${size}, beside ${called(near.one)}`] : [];
    });
  };

  // Cells that hold one figure, with or without its unit, typed or written: each stands at the right,
  // and those of a column end under each other.
  const UNIT = "[%°″×]|°C|[A-Za-zµ·]{1,3}[²³]?(?:/[a-z]{1,2}[²³]?)?";
  const FIGURE = new RegExp(`^[±+−-]?\\s?\\d(?:[\\d.,\\s]*\\d)?\\s?(?:${UNIT})?$`);
  const ends = (holds) => {
    const style = getComputedStyle(holds);
    const edge = parseFloat(style.paddingRight) + parseFloat(style.borderRightWidth);
    return holds.getBoundingClientRect().right - edge;
  };
  const leftAligned = () => {
    const found = new Set();
    for (const table of [...document.querySelectorAll("table")].filter(shown)) {
      const columns = new Map();
      for (const cell of table.querySelectorAll(":is(tbody, tfoot) :is(td, th)")) {
        if (!shown(cell)) continue;
        let holds = cell.querySelector("input:not([type=checkbox])");
        const says = (holds ? holds.value || holds.placeholder : cell.innerText).trim();
        if (!holds) {
          holds = cell;
          while (holds.firstElementChild?.innerText?.trim() === says) holds = holds.firstElementChild;
        }
        if (!FIGURE.test(says)) continue;
        const head = table.querySelectorAll("thead tr:last-child > *")[cell.cellIndex]?.innerText ?? "";
        const where = `table ${table.className}, ${head}: ${says}`;
        if (!["right", "end"].includes(getComputedStyle(holds).textAlign)) found.add(where);
        const column = columns.get(cell.cellIndex) ?? ends(holds);
        columns.set(cell.cellIndex, column);
        if (Math.abs(ends(holds) - column) > RAGGED) found.add(`${where}, not under the others`);
      }
    }
    return [...found];
  };

  return { letters: letters(), crowded: crowded(), leftAligned: leftAligned() };
}
