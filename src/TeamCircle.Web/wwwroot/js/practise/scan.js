// One switch for the adult: the acts are marked one after the other, and the switch does the one that is marked.

export class Scan {
  #timer = 0;
  #at = -1;
  #name = null;

  /** @param buttons gives the buttons in the order in which they are marked */
  constructor(seconds, buttons) {
    this.buttons = buttons;
    this.#timer = setInterval(() => this.#step(), seconds * 1000);
    this.begin();
  }

  /**
   * Begins again at the first: after each act others may stand there.
   * @param isKept the mark stays on what it stood on, where that is still there: the learner's own switch must not move an act under the adult's hand
   */
  begin(isKept = false) {
    const at = isKept ? this.buttons().findIndex(button => nameOf(button) === this.#name) : 0;
    this.#at = Math.max(at, 0) - 1;
    this.#step();
  }

  get marked() {
    return this.buttons()[this.#at] ?? null;
  }

  stop() {
    clearInterval(this.#timer);
    this.#mark(null);
  }

  #step() {
    const list = this.buttons();
    this.#at = list.length === 0 ? -1 : (this.#at + 1) % list.length;
    this.#mark(this.marked);
  }

  #mark(button) {
    document.querySelectorAll(".marked").forEach(old => old.classList.remove("marked"));
    button?.classList.add("marked");
    this.#name = button ? nameOf(button) : null;
  }
}

const nameOf = button => button.dataset.kind ?? button.textContent;
