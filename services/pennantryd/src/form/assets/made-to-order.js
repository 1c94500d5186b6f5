/**
 * <made-to-order>: bunting made to length, asked and answered live, on any page by one tag:
 *
 *   <script type="module" src="https://SHOP/made-to-order.js"></script>
 *   <made-to-order></made-to-order>
 *
 * Attributes: `design` (code: fixes the design), `key` (the storefront's own), `locale`,
 * `destination` (country code). Events, which bubble out of the shadow: `quote`, `hold` and
 * `problem`; their detail is the gateway's message as it came. In a <form> it submits
 * `quoteId`, `token`, `reservationId`, `summary` and `totalMinor`, and holds the form back
 * until there is a quote that may be ordered. What stands within the tag is shown until the
 * form is there.
 *
 * Everything comes from the origin of this file, and nothing goes anywhere else.
 */

import { el } from "./made-to-order/dom.js";
import { Form } from "./made-to-order/form.js";
import { Gateway } from "./made-to-order/gateway.js";
import { sheet } from "./made-to-order/style.js";
import { choose, load } from "./made-to-order/text.js";

const HOME = new URL(import.meta.url);
const PARTS = new URL("made-to-order/", HOME);

/** Said while no language has been read. */
const SPEECHLESS = "The shop could not be reached. Please load the page again.";

export class MadeToOrder extends HTMLElement {
  static formAssociated = true;
  static observedAttributes = ["design", "key", "locale", "destination"];

  #internals = this.attachInternals();
  #shadow = this.attachShadow({ mode: "open" });
  #gateway = new Gateway(HOME.origin);
  #form = null;
  #begun = 0;
  #living = null;
  #off = false;
  #follow = () => this.#form?.follow();

  constructor() {
    super();
    this.#shadow.adoptedStyleSheets = [sheet()];
    // what the page put into the tag is shown until the form is there
    this.#shadow.append(el("slot"));
    // the browser would look for one control to point at; this form leads there itself
    this.addEventListener("invalid", (event) => {
      event.preventDefault();
      this.#form?.unready(this.#internals.validationMessage);
    });
  }

  connectedCallback() {
    addEventListener("hashchange", this.#follow);
    this.#begin();
  }

  disconnectedCallback() {
    removeEventListener("hashchange", this.#follow);
    this.#begun += 1;
    this.#end();
  }

  attributeChangedCallback(name, before, now) {
    if (name === "key") this.#gateway.key = now ?? "";
    else if (this.isConnected && this.#begun > 0 && before !== now) this.#begin();
  }

  /** Called by the page's form when it is reset. */
  formResetCallback() {
    this.#form?.memory.forgetChoices();
    this.#end();
    if (this.#living) this.#living.choices = {};
    this.#begin();
  }

  /** Called where a fieldset around it is disabled, or no longer. */
  formDisabledCallback(off) {
    this.#off = off;
    this.#form?.root.toggleAttribute("inert", off);
  }

  #end() {
    this.#living = this.#form?.living ?? this.#living;
    this.#form?.stop();
    this.#form = null;
  }

  /** The latest quote, or null. */
  get quote() {
    return this.#form?.quote ?? null;
  }

  get form() {
    return this.#internals.form;
  }

  get validity() {
    return this.#internals.validity;
  }

  get validationMessage() {
    return this.#internals.validationMessage;
  }

  checkValidity() {
    return this.#internals.checkValidity();
  }

  reportValidity() {
    return this.#internals.reportValidity();
  }

  async #begin() {
    this.#begun += 1;
    const turn = this.#begun;
    this.#end();
    this.#internals.setFormValue(null);
    this.#internals.setValidity({ valueMissing: true }, " ");
    const chosen = choose([this.getAttribute("locale"), this.closest("[lang]")?.lang, ...navigator.languages]);
    try {
      const [text, catalogue] = await Promise.all([load(PARTS.href, chosen), this.#gateway.catalogue()]);
      if (turn !== this.#begun || !this.isConnected) return;
      this.#shadow.replaceChildren();
      this.#form = new Form({ text, catalogue, gateway: this.#gateway, send: this.#send, value: this.#value }, this.#given(), { name: this.#name(), living: this.#living });
      this.#form.root.lang = text.locale;
      this.#form.root.toggleAttribute("inert", this.#off);
      this.#shadow.replaceChildren(this.#form.root);
    } catch (problem) {
      if (turn !== this.#begun) return;
      this.#shadow.replaceChildren(el("p", { role: "alert", class: "speechless" }, SPEECHLESS));
      this.#send("problem", problem.detail ?? { title: String(problem.message), violations: [] });
    }
  }

  /** Which of the page's elements it is, so that each remembers its own. */
  #name() {
    return this.id || String([...document.querySelectorAll("made-to-order")].indexOf(this));
  }

  #given() {
    const given = {};
    if (this.getAttribute("design")) given.design = this.getAttribute("design");
    if (this.getAttribute("destination")) given.destination = this.getAttribute("destination").toUpperCase();
    return given;
  }

  #send = (name, detail) => {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  };

  /** What the page's form submits. Without a quote, or with one that is refused, it does not. */
  #value = (quote, form) => {
    const anchor = form.root.querySelector("#mto-length") ?? undefined;
    const refused = quote?.child?.outcome === "OUTCOME_REFUSE";
    if (!quote || refused) {
      this.#internals.setFormValue(null);
      const words = form.text.get(refused ? "hold.refused" : form.pending ? "answer.coming" : "answer.missing");
      if (anchor && this.#shadow.contains(anchor)) this.#internals.setValidity({ [refused ? "customError" : "valueMissing"]: true }, words, anchor);
      else this.#internals.setValidity({ valueMissing: true }, words);
      return;
    }
    const data = new FormData();
    data.set("quoteId", quote.quoteId ?? "");
    data.set("token", quote.token ?? "");
    data.set("reservationId", form.hold.idFor(quote));
    data.set("summary", form.answer.summary(quote));
    data.set("totalMinor", quote.price.total.minorUnits);
    this.#internals.setFormValue(data);
    this.#internals.setValidity({});
  };
}

if (!customElements.get("made-to-order")) customElements.define("made-to-order", MadeToOrder);
