// The module's surface for any program that runs WebAssembly: judge, read, open. Nothing here decides anything.
// Copyright as the project's LICENSE. Types: slingseal.d.ts; an example for Node: example.mjs.
class Slingseal {
  /** Instantiates the module from its bytes. */
  static async of(bytes) {
    const { instance } = await WebAssembly.instantiate(bytes, {});
    return new Slingseal(instance.exports);
  }

  constructor(exports) {
    this.exports = exports;
  }

  // Growth of the memory takes older views away, so that each is made anew.
  put(bytes) {
    const at = this.exports.room(bytes.length);
    new Uint8Array(this.exports.memory.buffer, at, bytes.length).set(bytes);
  }

  answer(length) {
    const bytes = new Uint8Array(this.exports.memory.buffer, this.exports.answer(), length);
    const answer = JSON.parse(new TextDecoder().decode(bytes.slice()));
    if ("error" in answer) throw new Error(answer.error);
    return answer.ok;
  }

  call(call) {
    this.put(new TextEncoder().encode(JSON.stringify(call)));
    return this.answer(this.exports.call());
  }

  /** A device by its parts. */
  device(parts) {
    return this.call({ call: "device", ...parts });
  }

  /** A device by what a check page carries: the bytes of its CP1 message. */
  begin(bytes) {
    this.put(bytes);
    return this.answer(this.exports.begin());
  }

  judge(question) {
    return this.call({ call: "judge", ...question });
  }

  open(text, question) {
    return this.call({ call: "open", text, ...question });
  }

  /** An unsigned report of what became of the load that was judged last, as a text and its code. */
  report(question) {
    return this.call({ call: "report", ...question });
  }

  /** The texts of the codes in a picture file (PNG, JPEG), or in pixels of four bytes. */
  read(picture) {
    if (picture instanceof Uint8Array) {
      this.put(picture);
      return this.answer(this.exports.picture()).texts;
    }
    this.put(picture.data);
    return this.answer(this.exports.still(picture.width, picture.height)).texts;
  }

  /** The next frame of a camera; texts that were read already are passed over. */
  frame(picture, known = []) {
    this.call({ call: "known", texts: known });
    this.put(picture.data);
    return this.answer(this.exports.frame(picture.width, picture.height)).texts;
  }
}
