// What a person has decided and the desk doesn't have yet. Kept in the browser, so that a closed lid, a killed desk
// or a new sign-in loses none of it.

/** The decisions of one reader about one face that wait to be sent, oldest first. */
export class Unsent {
  #key;
  #list;

  /** `storage` is the browser's, or whatever has getItem, setItem and removeItem. */
  constructor(face, reader, storage) {
    this.#key = `unsent ${face} ${reader}`;
    this.storage = storage;
    this.#list = this.#read();
  }

  get list() {
    return this.#list;
  }

  /** `change` is `{path, body, words, version}`: version is the face's when the person decided. */
  add(change) {
    this.#list = [...this.#list.filter((one) => !one.typing), change];
    this.#write();
  }

  /** The oldest has been saved, or was refused for good. */
  done() {
    this.#list = this.#list.slice(1);
    this.#write();
  }

  /** Letters being typed: kept while they are, then sent as one change. */
  keepTyping(change) {
    this.#list = [...this.#list.filter((one) => !one.typing), { ...change, typing: true }];
    this.#write();
  }

  dropTyping() {
    this.#list = this.#list.filter((one) => !one.typing);
    this.#write();
  }

  forget() {
    this.#list = [];
    this.#write();
  }

  #read() {
    try {
      return JSON.parse(this.storage.getItem(this.#key) ?? "[]");
    } catch {
      return [];
    }
  }

  #write() {
    try {
      if (this.#list.length > 0) {
        this.storage.setItem(this.#key, JSON.stringify(this.#list));
      } else {
        this.storage.removeItem(this.#key);
      }
    } catch {
      // A browser that keeps nothing still has the list while the page is open.
    }
  }
}
