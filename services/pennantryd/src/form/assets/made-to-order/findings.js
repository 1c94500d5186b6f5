/**
 * What was found about small children and about papers, in words: what, measured how, by which
 * rule, and what would end it. Nothing here clears anything, and what was not told is said.
 */

import { el, renew } from "./dom.js";
import { fieldOf } from "./enquiry.js";

export class Findings {
  #form;
  #ticked = new Set();

  constructor(form) {
    this.#form = form;
    this.root = el("section", { class: "findings", "aria-labelledby": "mto-findings" });
  }

  /** @param {object} quote */
  show(quote) {
    const { child, paperwork } = quote;
    const near = quote.understood.near ?? {};
    renew(this.root, [child, paperwork, near.fixings], () => this.#make(child, paperwork, near));
  }

  /** Rules acknowledged, of those that have to be. */
  acknowledged(child) {
    return child.acknowledge.filter((rule) => this.#ticked.has(this.#mark(child, rule)));
  }

  /** Rules not yet acknowledged. */
  missing(child) {
    return child.acknowledge.filter((rule) => !this.#ticked.has(this.#mark(child, rule)));
  }

  /** A tick is for what was read: the same rule with another measure has to be read again. */
  #mark(child, rule) {
    return JSON.stringify(child.findings.filter(({ ruleId }) => ruleId === rule).map(({ text, measured, limit }) => [text, measured, limit]));
  }

  #make(child, paperwork, near) {
    const { text } = this.#form;
    const papers = (paperwork?.findings ?? []).filter(({ outcome }) => outcome !== "PAPER_OUTCOME_NOTHING_FOUND");
    return [
      el("h3", { id: "mto-findings" }, text.get("findings.heading")),
      el("p", { class: "outcome", "data-outcome": child.outcome }, text.get(`outcome.${child.outcome}.long`)),
      el("ul", { class: "finding-list" }, child.findings.map((finding) => this.#finding(finding, child, near))),
      el("p", { class: "scope", lang: "en" }, child.scope),
      ...(papers.length === 0 ? [] : [
        el("h4", {}, text.get("papers.heading")),
        el("ul", { class: "finding-list" }, papers.map((finding) => this.#finding(finding, { acknowledge: [], findings: [] }, near, "paper."))),
      ]),
    ];
  }

  #finding(finding, child, near, kind = "") {
    const { text } = this.#form;
    const { ruleId, outcome } = finding;
    const whose = finding.jurisdiction === "JURISDICTION_UNSPECIFIED" ? text.get("whose.shop") : text.get(`whose.${finding.jurisdiction}`);
    const named = this.#named(finding.remedy);
    return el("li", { class: "finding", "data-rule": ruleId },
      el("p", { class: "finding-text" }, el("strong", {}, `${text.get(`${kind}outcome.${outcome}`)}: `), el("span", { lang: "en" }, finding.text)),
      el("p", { class: "remedy" }, el("span", { class: "label" }, text.get("finding.remedy")), " ", el("span", { lang: "en" }, named.words)),
      this.#deeds(finding, near, named.fields),
      el("details", { class: "source" }, el("summary", { "data-key": `source-${ruleId}` }, text.get("finding.why", { rule: ruleId })),
        el("dl", {},
          el("dt", {}, text.get("finding.measured")), el("dd", { lang: "en" }, finding.measured),
          el("dt", {}, text.get("finding.limit")), el("dd", { lang: "en" }, finding.limit),
          el("dt", {}, text.get("finding.source")), el("dd", {}, el("span", { lang: "en" }, finding.source)),
          el("dt", {}, text.get("finding.kind")), el("dd", {}, [whose, text.get(`basis.${finding.basis}`), text.get(`figure.${finding.figure}`)].join("; ")))),
      child.acknowledge.includes(ruleId) ? this.#tick(child, ruleId) : "");
  }

  #tick(child, rule) {
    const { text } = this.#form;
    const mark = this.#mark(child, rule);
    const box = el("input", { type: "checkbox", id: `mto-ack-${rule}`, "data-key": `ack-${rule}`, on: { change: () => {
      if (box.checked) this.#ticked.add(mark);
      else this.#ticked.delete(mark);
      this.#form.acknowledged();
    } } });
    box.checked = this.#ticked.has(mark);
    return el("div", { class: "field ack", "data-field": `ack-${rule}` },
      el("label", { class: "tick" }, box, el("span", {}, text.get("finding.acknowledge", { rule }))),
      el("p", { class: "error", id: `mto-ack-${rule}-error` }));
  }

  /** The contract's names in a remedy as the form's own labels, and which fields those are. */
  #named(remedy) {
    const { text } = this.#form;
    const fields = new Set();
    const words = remedy.replace(/\b(?:near\.\w+|finish\.[\w.[\]]+|[a-z]+(?:[A-Z][a-z]+)+)/g, (name) => {
      const field = fieldOf(name) || fieldOf(`near.${name}`);
      const label = `${field}.label`;
      if (!field || !text.has(label)) return name;
      fields.add(field);
      return `“${text.get(label)}”`;
    });
    return { words, fields: [...fields] };
  }

  /** What can be done about it by one click: a field to fill, hooks to add, ends to shorten. */
  #deeds(finding, near, fields) {
    const form = this.#form;
    const { text } = form;
    const deed = (key, words, act) => el("button", { type: "button", class: "small", "data-key": `${finding.ruleId}-${key}`, on: { click: act } }, words);
    // what is not asked now, such as an age before a child is told of, cannot be led to
    const asked = fields.filter((field) => !form.root.querySelector(`[data-field="${field}"]`)?.closest("[hidden]"));
    const deeds = asked.map((field) => deed(field, text.get("finding.tell", { what: text.get(`${field}.label`) }), () => form.lead(field)));
    // the gateway says remedies in words; where these are not the words, there is no button
    const hooks = /^(\d+) equally spaced fixings/.exec(finding.remedy);
    if (hooks) {
      const more = Number(hooks[1]) - (near.fixings ?? 0);
      const words = near.fixings === 2 && more === 1 ? text.get("deed.middle") : near.fixings ? text.get("deed.hooks", { count: more }) : text.get("deed.all", { hooks: Number(hooks[1]) });
      deeds.push(deed("hooks", words, () => form.set({ fixings: Number(hooks[1]) })));
    }
    const loose = /^Loose ends of at most (\d+) mm/.exec(finding.remedy);
    if (loose) deeds.push(deed("tail", text.get("deed.tail", { mm: Number(loose[1]) }), () => form.set({ tailUm: Number(loose[1]) * 1000 })));
    return deeds.length > 0 ? el("p", { class: "deeds" }, deeds) : "";
  }
}
