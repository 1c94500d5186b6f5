/** The form: keeps what was chosen, asks for an answer, and hands it to what shows it. */

import { Answer } from "./answer.js";
import { el, renew, say } from "./dom.js";
import { Drawing } from "./drawing.js";
import { enquiry, fresh, fromFragment, toFragment } from "./enquiry.js";
import { Findings } from "./findings.js";
import { Asker, Problem } from "./gateway.js";
import { Hold } from "./hold.js";
import { both, micrometres } from "./lengths.js";
import { Memory } from "./memory.js";
import { more } from "./more.js";
import { Problems } from "./problems.js";
import { howLong, whereAndWho, whichCloths } from "./questions.js";

/** How long an answer has to stand before it is spoken. Unit ms. */
const SPOKEN_AFTER = 1200;

export class Form {
  #refreshers = [];
  #spoken = "";
  #speech = 0;
  #late = 0;
  #blocked = false;
  #unreached = false;
  #again = () => {
    if (this.#unreached) this.#ask();
  };

  /**
   * @param {{text: import("./text.js").Text, catalogue: object, gateway: import("./gateway.js").Gateway,
   *   send: (event: string, detail: unknown) => void, value: (quote: object|null, form: Form) => void}} parts
   *   send: tells the page; value: sets what a plain form submits
   * @param {Partial<import("./enquiry.js").Choices>} given by the page
   * @param {{name: string, living: object|null}} before name of the element; what a form that this
   *   one takes the place of had, if there was one
   */
  constructor({ text, catalogue, gateway, send, value }, given, { name, living }) {
    Object.assign(this, { text, catalogue, gateway, send, value });
    this.pending = false;
    this.origin = gateway.origin;
    this.given = given;
    this.fixedDesign = Boolean(given.design);
    this.imperial = ["US", "LR", "MM"].includes(new Intl.Locale(text.locale).region ?? "");
    this.memory = new Memory(this.origin, name);
    this.choices = { ...fresh(), ...given, ...this.#found(living?.choices ?? this.memory.choices ?? fromFragment(location.hash)) };
    this.quote = null;
    this.asker = new Asker((question, signal) => gateway.quote(question, signal));
    this.drawing = new Drawing(text, this.origin);
    this.findings = new Findings(this);
    this.answer = new Answer(this);
    this.hold = new Hold(this);
    this.root = el("div", { class: "form" });
    this.problems = new Problems(text, this.root, (violation) => this.#reword(violation));
    this.live = el("p", { class: "unseen", role: "status", "aria-live": "polite" });
    this.link = el("div", { class: "share" });
    this.#build();
    this.#refresh();
    this.hold.reservation = living?.reservation ?? null;
    addEventListener("online", this.#again);
    this.#ask();
    this.hold.resume();
  }

  #build() {
    const { text, answer } = this;
    const state = el("p", { class: "state" });
    this.state = state;
    this.panel = el("section", { class: "answer", "aria-labelledby": "mto-answer" },
      el("h2", { id: "mto-answer", class: "quiet" }, text.get("answer.heading")),
      this.problems.summary, answer.price, state, answer.count, answer.day, answer.lines);
    this.after = el("div", { class: "after" }, this.findings.root, answer.also, this.hold.root, this.link);
    this.root.append(
      el("header", { class: "head" }, el("p", { class: "shop" }, this.catalogue.shopName),
        // on a page of its own the form is what the page is about
        el(document.querySelector("h1") ? "h2" : "h1", {}, text.get("heading"))),
      el("div", { class: "upper" }, this.drawing.root, this.drawing.caption, el("div", { class: "columns" },
        el("div", { class: "questions" }, howLong(this), whichCloths(this), whereAndWho(this), more(this)),
        el("div", { class: "side" }, this.panel))),
      this.after, answer.bar, this.live);
    this.root.addEventListener("focusin", ({ target }) => this.#uncover(target));
    renew(this.link, 1, () => [el("button", { type: "button", class: "small", on: { click: () => this.#share() } }, text.get("link.copy")), el("p", { class: "fine" }, text.get("link.what"))]);
  }

  /** The shop's shortest and longest in the buyer's units, where that is what is wrong. */
  #reword({ field, reason }) {
    if (reason !== "OUT_OF_RANGE" || !["flaggedMm", "overallMm", "hang.spanMm"].includes(field)) return null;
    const [least, most] = [this.catalogue.leastMm, this.catalogue.mostMm].map((mm) => both(micrometres(mm), this.imperial, this.text.locale));
    return this.text.get("length.range", { least, most });
  }

  /** The drawing stays on top of a narrow page: what is stepped to must not end up below it. */
  #uncover(target) {
    const stage = this.drawing.root.querySelector(".stage").getBoundingClientRect();
    const box = target.getBoundingClientRect();
    if (!this.drawing.root.contains(target) && getComputedStyle(this.drawing.root).position === "sticky" && box.top < stage.bottom + 8 && box.bottom > stage.top) {
      // whatever scrolls: the page, or a dialog in it
      target.style.scrollMarginBlockStart = `${Math.round(stage.height + 48)}px`;
      target.scrollIntoView({ block: "nearest", behavior: "instant" });
    }
  }

  /** What another form in this one's place goes on with. */
  get living() {
    return { choices: this.#chosen(), reservation: this.hold.reservation };
  }

  /** What the buyer chose, and not the page or nobody. */
  #chosen() {
    const plain = fresh();
    const own = ([name, value]) => value !== this.given[name] && JSON.stringify(value) !== JSON.stringify(plain[name]);
    return Object.fromEntries(Object.entries(this.choices).filter(own));
  }

  /** What a link or the tab brought along, but for what the page itself has said. */
  #found(choices) {
    const found = choices ?? {};
    if (this.fixedDesign) delete found.design;
    return found;
  }

  /** Takes up the choices of a link that was followed on the same page. */
  follow() {
    const linked = fromFragment(location.hash);
    if (linked) this.set({ ...fresh(), ...this.given, ...this.#found(linked), lettering: this.choices.lettering });
  }

  /** Lets a control keep up with choices that were made elsewhere. */
  onRefresh(refresh) {
    this.#refreshers.push(refresh);
  }

  #refresh() {
    for (const refresh of this.#refreshers) refresh();
    this.problems.look();
  }

  /** The design in force. */
  design() {
    return this.catalogue.designs.find(({ code }) => code === this.choices.design) ?? this.catalogue.designs[0];
  }

  /** The fabrics in force, in order: those chosen, else the design's. */
  fabrics() {
    return this.choices.fabrics.length > 0 ? this.choices.fabrics : this.design().fabricCodes;
  }

  serviceName(code) {
    return this.catalogue.services.find((service) => service.code === code)?.name ?? code;
  }

  /** @param {Partial<import("./enquiry.js").Choices>} changes */
  set(changes) {
    const before = this.choices;
    const next = { ...before, ...changes };
    // one more of another length is another question, and so is a shape of another design
    const other = (key) => key in changes && changes[key] !== before[key];
    if (["lengthUm", "dipUm", "swagCount", "tailUm", "lettering", "design", "shape"].some(other) && !("count" in changes)) Object.assign(next, { count: null, leftover: "" });
    if (other("design") && !("shape" in changes)) Object.assign(next, { shape: "", construction: "", fabrics: [] });
    this.choices = next;
    this.memory.keepChoices({ ...fresh(), ...this.#chosen() });
    this.#refresh();
    if (this.#blocked || this.problems.any || JSON.stringify(before) !== JSON.stringify(next)) this.#ask();
  }

  setImperial(imperial) {
    if (this.imperial === imperial) return;
    this.imperial = imperial;
    if (this.shown) this.#draw(this.shown.quote, this.shown.example);
  }

  /** A fault that a control found; while there is one, nothing is asked. */
  fault(field, words) {
    this.problems.own(field, words);
  }

  lead(field) {
    this.problems.lead(field);
  }

  #ask() {
    this.#blocked = this.problems.any;
    this.#unreached = false;
    if (this.#blocked) {
      this.asker.stop();
      this.#stale("answer.mend");
      this.#speak(() => this.problems.words);
      return;
    }
    const asked = enquiry(this.choices, this.design());
    if (!asked) {
      this.#example();
      return;
    }
    const begun = performance.now();
    this.#pending();
    this.asker.next(asked, {
      answered: (quote) => {
        this.#answered(quote);
        performance.measure("made-to-order: answer", { start: begun });
      },
      failed: (problem) => this.#failed(problem),
    });
  }

  /** Before there is a length: the design as it usually is, to look at. */
  #example() {
    this.#stale(this.quote ? "answer.again" : "answer.waiting");
    this.problems.told(null);
    const asked = enquiry({ ...this.choices, measure: "flagged", count: null, lengthUm: this.design().usualMm * 1000 }, this.design());
    this.asker.next(asked, { answered: (quote) => this.#draw(quote, true), failed: (problem) => this.#failed(problem) });
  }

  /** Until the answer comes, what is shown is of before; where that takes a while, it says so. */
  #pending() {
    this.pending = true;
    this.value(null, this);
    clearTimeout(this.#late);
    this.#late = setTimeout(() => this.#stale("answer.coming", true), 250);
  }

  #settled() {
    this.pending = false;
    clearTimeout(this.#late);
  }

  #answered(quote) {
    this.#settled();
    this.quote = quote;
    this.problems.told(null);
    this.root.classList.remove("is-stale");
    say(this.state, "");
    this.#draw(quote, false);
    this.answer.show(quote, this.problems.notes(quote.notices));
    this.findings.show(quote);
    this.hold.show(quote);
    this.value(quote, this);
    this.send("quote", quote);
    this.#speak(() => this.answer.spoken(quote));
  }

  #draw(quote, example) {
    this.shown = { quote, example };
    this.drawing.show(quote, this.catalogue, { imperial: this.imperial, example, caption: this.answer.caption(quote) });
  }

  #failed(problem) {
    const detail = problem instanceof Problem ? problem.detail : { reason: "OTHER", title: String(problem?.message ?? problem), violations: [] };
    this.#unreached = (detail.status ?? 0) === 0 || detail.status >= 500;
    this.problems.told(detail);
    this.#stale("answer.mend");
    this.send("problem", detail);
    this.#speak(() => this.problems.words);
  }

  /** What is still shown is of before: it says so, and nothing can be ordered by it. */
  #stale(key, pending = false) {
    this.#settled();
    this.pending = pending;
    this.root.classList.toggle("is-stale", this.quote !== null);
    say(this.state, this.quote ? this.text.get(key) : "");
    if (!this.quote) say(this.answer.beside, this.text.get("answer.waiting"));
    this.hold.show(null);
    this.value(null, this);
  }

  /** The page's form was to be sent too early: says why, and leads to what is missing. */
  unready(words) {
    this.announce(this.problems.any ? this.problems.words : words);
    if (this.problems.any || !this.problems.summary.hidden) this.problems.summary.focus();
    else if (!this.pending) this.problems.refuse([{ field: this.quote ? "place" : "length", words }]);
  }

  /** An acknowledgement was given or taken back. */
  acknowledged() {
    this.problems.told(null);
  }

  /** A hold was taken, extended, let go, or ran out. */
  heldChanged() {
    const quote = this.root.classList.contains("is-stale") ? null : this.quote;
    this.hold.show(quote);
    if (quote) this.value(quote, this);
  }

  /** Says something at once to those who listen. */
  announce(words) {
    clearTimeout(this.#speech);
    this.#spoken = words;
    say(this.live, words);
  }

  /** Says something once it has stood for a while, and once only. */
  #speak(words) {
    clearTimeout(this.#speech);
    this.#speech = setTimeout(() => {
      const now = words();
      if (now !== this.#spoken) this.announce(now);
    }, SPOKEN_AFTER);
  }

  async #share() {
    const address = new URL(location.href);
    address.hash = toFragment(this.choices);
    try {
      await navigator.clipboard.writeText(address.href);
      this.announce(this.text.get("link.copied"));
      this.#shared(address.href, this.text.get("link.copied"));
    } catch {
      this.#shared(address.href, this.text.get("link.byHand"));
    }
  }

  #shared(address, words) {
    let shown = this.link.querySelector("input");
    if (!shown) {
      shown = el("input", { type: "text", readonly: true, "aria-label": this.text.get("link.address") });
      this.link.append(shown);
    }
    shown.value = address;
    say(this.link.querySelector("p"), words);
    shown.focus();
    shown.select();
  }

  stop() {
    removeEventListener("online", this.#again);
    this.#settled();
    this.asker.stop();
    this.drawing.stop();
    this.hold.stop();
    clearTimeout(this.#speech);
  }
}
