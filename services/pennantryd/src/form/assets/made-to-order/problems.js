/** What is wrong, beside each field and in one list that leads to the fields. */

import { el, renew, say } from "./dom.js";
import { fieldOf } from "./enquiry.js";

export class Problems {
  #text;
  #root;
  #reword;
  #own = new Map();
  #told = [];

  /**
   * @param {import("./text.js").Text} text
   * @param {ParentNode} root in which the fields are
   * @param {(violation: object) => string|null} reword says a violation in the buyer's own words
   */
  constructor(text, root, reword) {
    this.#text = text;
    this.#root = root;
    this.#reword = reword;
    this.summary = el("div", { class: "summary", tabindex: -1, hidden: true, role: "group", "aria-labelledby": "mto-summary" });
  }

  /** A fault that the form found by itself; "" takes it back. */
  own(field, words) {
    if (words) {
      this.#own.set(field, words);
      // what the gateway said was of what stood there before
      this.#told = this.#told.filter((entry) => entry.field !== field);
    } else this.#own.delete(field);
    this.#show();
  }

  /** Whether the form itself has something to say against what is typed. */
  get any() {
    return this.#owned().length > 0;
  }

  /** The list, to be spoken. */
  get words() {
    const list = this.#list();
    return list.length === 0 ? "" : [this.#text.get("problems", { count: list.length }), ...list.map(({ words }) => words)].join(" ");
  }

  /** Fields were shown or hidden: what is not asked now has no faults. */
  look() {
    this.#show();
  }

  #owned() {
    return [...this.#own].filter(([field]) => !this.#root.querySelector(`[data-field="${field}"]`)?.closest("[hidden]"));
  }

  /** What the gateway refused (application/problem+json), or null once it answers. */
  told(problem) {
    this.#told = [];
    if (problem) {
      const violations = problem.violations ?? [];
      this.#told = violations.map((violation) => {
        const words = this.#reword(violation);
        return { field: fieldOf(violation.field), words: words ?? violation.message, lang: words ? undefined : "en" };
      });
      if (violations.length === 0) {
        const known = `problem.${problem.reason}`;
        this.#told.push(this.#text.has(known) ? { field: "", words: this.#text.get(known) } : { field: "", words: problem.detail || problem.title || this.#text.get("problem.other"), lang: "en" });
      }
    }
    this.#show();
  }

  /** Faults of a deed just tried, such as an acknowledgement that is missing, and the list in view. */
  refuse(entries) {
    this.#told = entries;
    this.#show();
    this.summary.focus();
  }

  /** Notes of the shop beside their fields; gives back those that have none. */
  notes(notices) {
    const byField = new Map();
    const rest = [];
    for (const notice of notices) {
      // the answer tells this one by itself, with what can be done
      if (notice.code === "WANTED_DAY_MISSED") continue;
      const field = fieldOf(notice.field);
      if (field && this.#root.querySelector(`[data-field="${field}"]`)) byField.set(field, [...(byField.get(field) ?? []), notice.message]);
      else rest.push(notice);
    }
    for (const place of this.#root.querySelectorAll("[data-field]")) {
      const note = place.querySelector(`#mto-${place.dataset.field}-note`);
      if (note) say(note, (byField.get(place.dataset.field) ?? []).join(" "));
    }
    return rest;
  }

  #list() {
    return [...this.#owned().map(([field, words]) => ({ field, words })), ...this.#told];
  }

  #show() {
    const list = this.#list();
    for (const place of this.#root.querySelectorAll("[data-field]")) {
      const id = place.dataset.field;
      const mine = list.filter(({ field }) => field === id);
      const error = place.querySelector(`#mto-${id}-error`);
      if (!error) continue;
      say(error, mine.map(({ words }) => words).join(" "));
      if (mine[0]?.lang) error.lang = mine[0].lang;
      else error.removeAttribute("lang");
      const control = place.querySelector(`#mto-${id}`);
      if (mine.length > 0) control?.setAttribute("aria-invalid", "true");
      else control?.removeAttribute("aria-invalid");
      place.classList.toggle("has-error", mine.length > 0);
    }
    this.summary.hidden = list.length === 0;
    renew(this.summary, list, () => [
      el("h4", { id: "mto-summary" }, this.#text.get("problems", { count: list.length })),
      el("ul", {}, list.map(({ field, words, lang }) => el("li", { lang }, field
        ? el("button", { type: "button", class: "link", "data-key": field, on: { click: () => this.lead(field) } }, words) : words))),
    ]);
  }

  /** Takes the buyer to a field, opening what hides it. */
  lead(field) {
    const place = this.#root.querySelector(`[data-field="${field}"]`);
    if (!place) return;
    for (let around = place.closest("details"); around; around = around.parentElement?.closest("details")) around.open = true;
    const control = place.querySelector("input:checked, input:not([type=radio]), select, button, input");
    control?.focus({ preventScroll: true });
    place.scrollIntoView({ block: "center", behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth" });
  }
}
