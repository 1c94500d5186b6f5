/**
 * What a tab remembers until it is closed, so that a page loaded again, or come back to, goes on
 * where it was: the choices as a link carries them (never lettering), and the name of a hold.
 * Where the browser keeps nothing, nothing is remembered.
 */

import { fromFragment, toFragment } from "./enquiry.js";

export class Memory {
  #place;
  #kept = {};

  /** @param {string} origin the gateway's @param {string} design the one that the page fixed, if any */
  constructor(origin, design = "") {
    this.#place = ["made-to-order", origin, location.pathname, design].join(" ");
    try {
      const kept = JSON.parse(sessionStorage.getItem(this.#place) ?? "{}");
      // a link followed since has its own choices
      for (const [name, value] of Object.entries(kept)) if (typeof value === "string" && (name === "hold" || kept.link === location.hash)) this.#kept[name] = value;
    } catch { /* as if it were the first time */ }
  }

  /** @returns {Partial<import("./enquiry.js").Choices>|null} */
  get choices() {
    return fromFragment(this.#kept.choices ?? "");
  }

  /** The name of a hold, or "". */
  get hold() {
    return this.#kept.hold ?? "";
  }

  keepChoices(choices) {
    this.#keep({ choices: toFragment(choices), link: location.hash });
  }

  keepHold(name) {
    this.#keep({ hold: name });
  }

  /** The choices of before are over; what is held is held. */
  forgetChoices() {
    this.#keep({ choices: "" });
  }

  #keep(what) {
    Object.assign(this.#kept, what);
    try {
      sessionStorage.setItem(this.#place, JSON.stringify(this.#kept));
    } catch { /* the browser keeps nothing */ }
  }
}
