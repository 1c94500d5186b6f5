/** Holding the cloth: what has to be read before, the hold, its time, and more of it. */

import { el, renew, say } from "./dom.js";
import { fresh } from "./gateway.js";

/** How long a hold is asked for. Unit: seconds. The gateway's own figure. */
const SECONDS = 900;

export class Hold {
  #form;
  #key = "";
  #tried = "";
  #timer = 0;
  #warned = false;
  #busy = false;
  #quote = null;
  // what happened to it elsewhere is seen when the buyer comes back
  #back = () => {
    if (document.visibilityState === "visible" && this.reservation) this.#look(this.reservation.reservationId);
  };

  constructor(form) {
    this.#form = form;
    this.reservation = null;
    document.addEventListener("visibilitychange", this.#back);
    this.root = el("section", { class: "hold", "aria-labelledby": "mto-hold" });
    this.clock = el("p", { class: "clock", role: "timer", "aria-live": "off" });
  }

  /** @param {object|null} quote null while there is none that holds */
  show(quote) {
    this.#quote = quote;
    const { reservation } = this;
    renew(this.root, [quote && [quote.quoteId, quote.child.outcome, quote.token === undefined, quote.leaflet], reservation, this.#busy], () => this.#make(quote, reservation));
    this.#tick();
  }

  /** The name of the hold, if it is for this quote and lasts. */
  idFor(quote) {
    const { reservation } = this;
    return reservation && this.#lasts() && reservation.quoteId === quote.quoteId ? reservation.reservationId : "";
  }

  /** Takes up a hold that was taken before the page was loaded, where it lasts. */
  async resume() {
    const name = this.#form.memory.hold;
    if (name && !this.reservation) await this.#look(name);
  }

  /** Asks how a hold stands now, and forgets one that is none any longer. */
  async #look(name) {
    const known = this.reservation;
    try {
      const found = await this.#form.gateway.reservation(name);
      if (this.reservation !== known || this.#busy) return;
      this.reservation = found;
      if (!this.#lasts()) this.#forget();
    } catch (problem) {
      // a shop that is not reached may still hold it
      if (problem.detail?.status !== 404 || this.reservation !== known) return;
      this.#forget();
    }
    this.#form.heldChanged();
  }

  #forget() {
    this.reservation = null;
    this.#form.memory.keepHold("");
  }

  #lasts() {
    const { reservation } = this;
    return reservation?.state === "RESERVATION_STATE_HELD" && Date.parse(reservation.expireTime) > Date.now();
  }

  #make(quote, reservation) {
    const { text, catalogue } = this.#form;
    const held = reservation !== null && this.#lasts();
    // whatever has to be put right above, the time of what is held runs
    if (!quote) return held ? [el("h3", { id: "mto-hold" }, text.get("hold.heading")), this.#held(reservation)] : [];
    const { maker } = catalogue;
    const same = held && reservation.quoteId === quote.quoteId;
    return [
      el("h3", { id: "mto-hold" }, text.get("hold.heading")),
      el("p", {}, text.get("hold.what")),
      el("div", { class: "maker" }, el("h4", {}, text.get("maker.heading")),
        el("address", {}, [maker?.name, maker?.postalAddress, maker?.electronicAddress].filter(Boolean).map((line) => el("span", {}, line)),
          maker?.responsiblePerson ? el("span", {}, text.get("maker.responsible", { who: maker.responsiblePerson })) : ""),
        maker?.name && maker.postalAddress && maker.electronicAddress ? "" : el("p", { class: "fine" }, text.get("maker.missing"))),
      (quote.leaflet ?? []).length === 0 ? null : el("div", { class: "leaflet" }, el("h4", {}, text.get("leaflet.heading")), el("ul", { lang: "en" }, quote.leaflet.map((line) => el("li", {}, line)))),
      quote.child.outcome === "OUTCOME_REFUSE" ? el("p", { class: "refused" }, text.get("hold.refused"))
        : same ? null : el("button", { type: "button", class: "deed", "data-key": "hold", "aria-disabled": this.#busy || quote.token === undefined ? "true" : null, on: { click: () => this.#take() } },
          text.get(held ? "hold.instead" : "hold.take")),
      quote.token === undefined ? el("p", {}, text.get("hold.noTicket")) : null,
      held && !same ? el("p", {}, text.get("hold.other")) : null,
      reservation?.state === "RESERVATION_STATE_EXPIRED" ? el("p", {}, text.get("hold.over")) : null,
      held ? this.#held(reservation) : null,
    ];
  }

  #held(reservation) {
    const { text } = this.#form;
    const more = !reservation.extendUntil || Date.parse(reservation.extendUntil) - Date.parse(reservation.expireTime) > 1000;
    return el("div", { class: "held" }, this.clock,
      el("p", {},
        more ? el("button", { type: "button", class: "small", "data-key": "extend", on: { click: () => this.#extend() } }, text.get("hold.extend")) : text.get("hold.longest"), " ",
        el("button", { type: "button", class: "small", "data-key": "release", on: { click: () => this.#release() } }, text.get("hold.release"))),
      (reservation.notices ?? []).map(({ message }) => el("p", { class: "fine", lang: "en" }, message)));
  }

  #tick() {
    clearTimeout(this.#timer);
    const { reservation } = this;
    if (!reservation || reservation.state !== "RESERVATION_STATE_HELD") return;
    const left = Math.max(0, Math.ceil((Date.parse(reservation.expireTime) - Date.now()) / 1000));
    const { text } = this.#form;
    say(this.clock, text.get("hold.left", { minutes: Math.floor(left / 60), seconds: String(left % 60).padStart(2, "0") }));
    if (left <= 120 && !this.#warned) {
      this.#warned = true;
      this.#form.announce(text.get("hold.soon"));
    }
    if (left === 0) {
      this.reservation = { ...reservation, state: "RESERVATION_STATE_EXPIRED" };
      this.#form.memory.keepHold("");
      this.#form.announce(text.get("hold.over"));
      this.#form.heldChanged();
      return;
    }
    this.#timer = setTimeout(() => this.#tick(), 1000);
  }

  async #take() {
    const form = this.#form;
    const quote = this.#quote;
    if (!quote?.token || this.#busy) return;
    if (form.pending) {
      form.announce(form.text.get("answer.coming"));
      return;
    }
    const missing = form.findings.missing(quote.child);
    if (missing.length > 0) {
      form.problems.refuse(missing.map((rule) => ({ field: `ack-${rule}`, words: form.text.get("hold.acknowledge", { rule }) })));
      return;
    }
    const wanted = { token: quote.token, acknowledgedRuleIds: form.findings.acknowledged(quote.child), seconds: SECONDS };
    if (this.reservation && this.#lasts()) wanted.supersedesId = this.reservation.reservationId;
    // tried again, the same hold keeps its key: then it is taken once, whatever was lost on the way
    const content = JSON.stringify(wanted);
    if (this.#tried !== content) {
      this.#tried = content;
      this.#key = fresh();
    }
    await this.#do(() => form.gateway.hold(wanted, this.#key), "hold.done");
  }

  #extend() {
    return this.#do(() => this.#form.gateway.extend(this.reservation.reservationId, SECONDS, fresh()), "hold.extended");
  }

  #release() {
    return this.#do(() => this.#form.gateway.release(this.reservation.reservationId), "hold.released");
  }

  async #do(act, said) {
    const form = this.#form;
    if (this.#busy) return;
    this.#busy = true;
    this.show(this.#quote);
    try {
      this.reservation = await act();
      form.memory.keepHold(this.#lasts() ? this.reservation.reservationId : "");
      // an answer came: another hold with the same content would be another hold
      this.#tried = "";
      this.#warned = false;
      this.#busy = false;
      form.problems.told(null);
      form.announce(form.text.get(said));
      form.send("hold", this.reservation);
    } catch (problem) {
      this.#busy = false;
      if (problem.detail?.status) this.#tried = "";
      form.problems.told(problem.detail ?? { reason: "OTHER", detail: String(problem.message) });
      form.send("problem", problem.detail ?? null);
      form.problems.summary.focus();
      // it may have ended elsewhere: then it is neither to be extended nor to be replaced
      if (this.reservation && [404, 409, 410].includes(problem.detail?.status)) await this.#look(this.reservation.reservationId);
    }
    form.heldChanged();
  }

  stop() {
    document.removeEventListener("visibilitychange", this.#back);
    clearTimeout(this.#timer);
  }
}
