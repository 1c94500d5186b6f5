/**
 * What a tab remembers until it is closed, so that a page loaded again, or come back to, goes on
 * where it was: the choices as a link carries them (never lettering), and the name of a hold.
 * Where the browser keeps nothing, nothing is remembered.
 */

import { fromFragment, toFragment } from "./enquiry.js";

export class Memory {
  #place;
  #kept = {};

  /** @param {string} origin the gateway's @param {string} name of the element on its page */
  constructor(origin, name) {
    this.#place = ["made-to-order", origin, location.pathname, name].join(" ");
    const kept = this.#stored();
    // a link followed since has its own choices
    for (const [name, value] of Object.entries(kept)) if (name === "hold" || kept.link === location.hash) this.#kept[name] = value;
  }

  #stored() {
    try {
      const stored = JSON.parse(sessionStorage.getItem(this.#place) ?? "{}");
      return Object.fromEntries(Object.entries(stored).filter(([, value]) => typeof value === "string"));
    } catch {
      return {};
    }
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
      sessionStorage.setItem(this.#place, JSON.stringify({ ...this.#stored(), ...what }));
    } catch { /* the browser keeps nothing */ }
  }
}
