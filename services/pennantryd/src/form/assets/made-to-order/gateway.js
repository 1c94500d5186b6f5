/** Speaks to the gateway: the origin that the script came from, and no other. */

/** What stood in the way of an answer, as the gateway says it or because it could not be asked. */
export class Problem extends Error {
  /** @param {object} detail the gateway's application/problem+json, or one in its likeness */
  constructor(detail) {
    super(detail.detail ?? detail.title ?? "");
    this.detail = detail;
  }
}

/** A word nobody else chooses; `randomUUID` is not there on a page without TLS. */
export function fresh() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export class Gateway {
  /**
   * @param {string} origin such as "https://SHOP"
   * @param {typeof fetch} [send]
   */
  constructor(origin, send = (...what) => fetch(...what)) {
    this.origin = origin;
    this.send = send;
    this.key = "";
  }

  catalogue() {
    return this.#call("GET", "/v1/catalogue");
  }

  quote(enquiry, signal) {
    return this.#call("POST", "/v1/quotes", enquiry, { signal });
  }

  /**
   * @param {object} hold token, acknowledgedRuleIds, seconds, supersedesId
   * @param {string} requestKey the same for each attempt at the same hold
   */
  hold(hold, requestKey) {
    return this.#call("POST", "/v1/reservations", hold, { requestKey });
  }

  reservation(id) {
    return this.#call("GET", `/v1/reservations/${encodeURIComponent(id)}`);
  }

  extend(id, seconds, requestKey) {
    return this.#call("POST", `/v1/reservations/${encodeURIComponent(id)}/extend`, { seconds }, { requestKey });
  }

  release(id) {
    return this.#call("DELETE", `/v1/reservations/${encodeURIComponent(id)}`);
  }

  async #call(method, path, body, { signal, requestKey } = {}) {
    const headers = {};
    if (body !== undefined) headers["content-type"] = "application/json";
    if (requestKey) headers["idempotency-key"] = requestKey;
    if (this.key) headers.authorization = `Bearer ${this.key}`;
    const request = { method, headers, signal, credentials: "omit", referrerPolicy: "origin" };
    if (body !== undefined) request.body = JSON.stringify(body);
    let answer;
    let said;
    try {
      answer = await this.send(this.origin + path, request);
      said = await answer.json();
    } catch (cause) {
      if (cause?.name === "AbortError") throw cause;
      throw new Problem({ reason: answer ? "NOT_READABLE" : "NOT_REACHED", status: answer?.status ?? 0, title: "", detail: "", violations: [] });
    }
    if (!answer.ok) throw new Problem({ violations: [], ...said });
    return said;
  }
}

/**
 * Asks for the newest thing only. When idle it asks at once, so that a keystroke is answered
 * without waiting; what comes within `pauseMs` of the last question waits for the rest of
 * that pause, and only the newest of what waits is asked. A newer question ends an older one,
 * and an older answer that slips through is dropped.
 */
export class Asker {
  #ask;
  #pauseMs;
  #number = 0;
  #running = null;
  #timer = 0;
  #lastMs = -Infinity;

  /**
   * @param {(question: object, signal: AbortSignal) => Promise<object>} ask
   * @param {number} [pauseMs]
   */
  constructor(ask, pauseMs = 24) {
    this.#ask = ask;
    this.#pauseMs = pauseMs;
  }

  /**
   * @param {object} question
   * @param {{answered: (answer: object) => void, failed: (problem: Error) => void}} then
   */
  next(question, then) {
    this.stop();
    const number = this.#number;
    const go = async () => {
      this.#lastMs = performance.now();
      const control = new AbortController();
      this.#running = control;
      try {
        const answer = await this.#ask(question, control.signal);
        if (number === this.#number) then.answered(answer);
      } catch (problem) {
        if (number === this.#number && problem?.name !== "AbortError") then.failed(problem);
      } finally {
        if (this.#running === control) this.#running = null;
      }
    };
    const wait = this.#lastMs + this.#pauseMs - performance.now();
    if (wait <= 0) go();
    else this.#timer = setTimeout(go, wait);
  }

  /** Forgets what is asked or waits. */
  stop() {
    this.#number += 1;
    clearTimeout(this.#timer);
    this.#running?.abort();
    this.#running = null;
  }
}
