// The water dial: what a water asks for, read from a table that was worked out beforehand.
// It needs nothing but its own piece of HTML, on the page as on the phone.
(() => {
  /** @typedef {{ kind: string, celsius: number, salt: number, density: number }} Water */

  /** @type {WeakMap<Element, DialTable>} */
  const tables = new WeakMap();

  /**
   * @template {Element} T
   * @param {Element} dial
   * @param {string} selector
   * @param {new () => T} kind
   * @returns {T}
   */
  function one(dial, selector, kind) {
    const found = dial.querySelector(selector);
    if (found instanceof kind) return found;
    throw new Error(`There is no ${selector} on the dial.`);
  }

  /**
   * @param {Element} dial
   * @param {string} key
   */
  function slider(dial, key) {
    return one(dial, `[name="pond-${key}"]`, HTMLInputElement);
  }

  /**
   * @param {Element} dial
   * @param {string} key
   */
  function line(dial, key) {
    return one(dial, `[data-told="${key}"]`, HTMLElement);
  }

  /**
   * @param {Element} dial
   * @returns {DialTable}
   */
  function tableOf(dial) {
    const table = tables.get(dial) ?? JSON.parse(one(dial, ".dial-table", HTMLScriptElement).text);
    tables.set(dial, table);
    return table;
  }

  /**
   * Straight between the two rows beside a place.
   * @param {number[]} list
   * @param {number} at
   */
  function between(list, at) {
    const low = Math.max(0, Math.min(Math.floor(at), list.length - 2));
    return list[low] + (list[low + 1] - list[low]) * (at - low);
  }

  /**
   * The same; null where either has no figure.
   * @param {(number | null)[]} list
   * @param {number} at
   */
  function where(list, at) {
    const low = Math.max(0, Math.min(Math.floor(at), list.length - 2));
    const [a, b] = [list[low], list[low + 1]];
    return a === null || b === null ? null : a + (b - a) * (at - low);
  }

  /**
   * @param {DialTable} table
   * @param {Water} water
   */
  function density(table, water) {
    if (water.kind === "measured") return water.density;
    const { salts, rows } = table.grids[water.kind];
    const { start, step } = table.celsius;
    const salt = (water.salt - salts.start) / salts.step;
    const along = rows.map((row) => (row.length > 1 ? between(row, salt) : row[0]));
    return between(along, (water.celsius - start) / step) / table.fine;
  }

  /**
   * @param {DialTable} table
   * @param {number} rho
   * @returns {DialRow}
   */
  function read({ from, step, rows }, rho) {
    const at = Math.max(0, Math.min((rho - from) / step, rows.lead.length - 1));
    const { lead, foam, neutral, short } = rows;
    return {
      lead: between(lead, at), foam: between(foam, at), neutral: between(neutral, at), short: between(short, at),
      rises: where(rows.rises, at), trim: where(rows.trim, at),
    };
  }

  /**
   * @param {DialTable} table
   * @param {string} kind
   * @param {number} value
   */
  function write(table, kind, value) {
    const unit = table.units[kind];
    const number = value * unit.per - unit.offset;
    const isSmall = number !== 0 && Math.abs(number) < unit.small;
    const digits = isSmall ? 1 : Math.max(0, unit.decimals - (Math.abs(number) >= 100 ? 1 : 0));
    return `${number.toFixed(digits)}${unit.name === "°" ? "" : " "}${unit.name}`;
  }

  /** @param {string} text */
  const isNought = (text) => !/[1-9]/.test(text);

  /**
   * @param {string} text
   * @param {...string} values
   */
  function filled(text, ...values) {
    return values.reduce((made, value) => made.replace("{}", value), text);
  }

  /**
   * @param {DialTable} table
   * @param {DialRow} one
   */
  function wordsOf(table, one) {
    const { words, tanks } = table;
    const lead = write(table, "mass", Math.abs(one.lead));
    let ask = filled(words[one.lead > 0 ? "add" : "out"], lead);
    if (one.foam > 0) ask = filled(words.foam, lead, write(table, "volume", one.foam));
    else if (isNought(lead)) ask = words.nothing;
    let neutral = filled(words.neutral, write(table, "volume", one.neutral), ((100 * one.neutral) / tanks.room).toFixed(0));
    if (one.neutral > tanks.full) neutral = words.never;
    else if (one.neutral < tanks.blown) neutral = words.sinks;
    let rides = words.drowns;
    if (one.rises !== null) {
      const far = write(table, "length", Math.abs(one.rises));
      rides = isNought(far) ? words["as meant"] : filled(words[one.rises > 0 ? "higher" : "lower"], far);
    }
    let hangs = words["no hang"];
    if (one.trim !== null) {
      const angle = `${Math.abs(one.trim).toFixed(1)}°`;
      hangs = isNought(angle) ? words.level : filled(words[one.trim > 0 ? "bow" : "stern"], angle);
    }
    const short = write(table, "mass", Math.abs(one.short));
    const full = isNought(short) ? words["as neutral"] : filled(words[one.short > 0 ? "light" : "heavy"], short);
    return { ask, full, neutral, rides, hangs };
  }

  /**
   * The water that the dial stands at.
   * @param {HTMLElement} dial
   * @param {DialTable} table
   * @returns {Water}
   */
  function waterAt(dial, table) {
    const kind = one(dial, '[name="pond-kind"]:checked', HTMLInputElement).value;
    const { salts } = table.grids[kind] ?? {};
    if (salts && salts.count > 1) slider(dial, "salt").max = String(salts.start + salts.step * (salts.count - 1));
    /** @param {string} key */
    const number = (key) => Number(slider(dial, key).value);
    const water = { kind, celsius: number("celsius"), salt: kind === "fresh" ? 0 : number("salt"), density: number("density") };
    const [, celsius, salt] = one(dial, "#pond-named", HTMLSelectElement).value.split("|");
    return salt ? { ...water, celsius: Number(celsius), salt: Number(salt) } : water; // finer than the sliders
  }

  /** @param {HTMLElement} dial */
  function turn(dial) {
    const table = tableOf(dial);
    const water = waterAt(dial, table);
    const { kind } = water;
    /** @type {Record<string, boolean>} */
    const hidden = { celsius: kind === "measured", salt: kind !== "pool" && kind !== "sea", density: kind !== "measured" };
    for (const [key, isHidden] of Object.entries(hidden)) one(dial, `[data-row="${key}"]`, HTMLElement).hidden = isHidden;
    const rho = density(table, water);
    const says = wordsOf(table, read(table, rho));
    for (const [key, text] of Object.entries(says)) line(dial, key).textContent = text;
    const isSame = says.ask === table.words.nothing;
    line(dial, "where").textContent = isSame ? "" : table.place;
    line(dial, "trimmed").textContent = isSame ? "" : table.trimmed;
    line(dial, "hangs").hidden = !says.hangs;
    line(dial, "density").textContent = `${rho.toFixed(1)} kg/m³; she is trimmed for ${table.own.toFixed(1)}`;
    const outputs = { celsius: write(table, "temperature", water.celsius), salt: `${water.salt.toFixed(1)} g/kg`, density: `${water.density.toFixed(1)} kg/m³` };
    for (const [key, text] of Object.entries(outputs)) {
      one(dial, `[data-row="${key}"] output`, HTMLElement).textContent = text;
      slider(dial, key).setAttribute("aria-valuetext", text);
    }
    dial.dataset.density = rho.toFixed(3);
    const last = table.from + table.step * (table.rows.lead.length - 1);
    one(dial, ".needle", HTMLElement).style.left = `${(100 * (rho - table.from)) / (last - table.from)}%`;
    if (kind !== "measured") slider(dial, "density").value = rho.toFixed(1);
    dial.dispatchEvent(new CustomEvent("turned", { bubbles: true }));
  }

  document.addEventListener("input", (event) => {
    const dial = event.target instanceof Element ? event.target.closest(".dial") : null;
    if (!(dial instanceof HTMLElement)) return;
    const named = one(dial, "#pond-named", HTMLSelectElement);
    if (event.target === named && named.value) {
      const [kind, celsius, salt] = named.value.split("|");
      one(dial, `[name="pond-kind"][value="${kind}"]`, HTMLInputElement).checked = true;
      slider(dial, "salt").max = "42";
      slider(dial, "salt").value = salt;
      slider(dial, "celsius").value = celsius;
    } else if (event.target !== named) named.value = "";
    turn(dial);
  });
})();
