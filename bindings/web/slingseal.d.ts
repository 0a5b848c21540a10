/** The verifier as a WebAssembly module. It decides by the same code as every other device; see core/message/SPECIFICATION.md. */

/** A moment, UTC. */
export interface Stamp { unix: number; rfc3339: string; dtg: string }

export interface Reason {
  /** A stable word: the codes of chapter 9. */
  code: string;
  grade: "no_go" | "wait" | "note";
  /** What a person reads, in the language that was asked for. */
  text: string;
}

export interface Verdict {
  kind: "verdict";
  verdict: "go" | "wait" | "no_go";
  word: "GO" | "WAIT" | "NO-GO";
  /** The line under the word. */
  first: string;
  /** The same for a voice. */
  spoken: string;
  reasons: Reason[];
  /** What the seal says, where one could be read. `inspector` is null where nobody trusted signed it. */
  facts: null | {
    load: string; fit: boolean; inspector: string | null; authority: string | null; issued: Stamp; valid_until: Stamp;
    mass: string; procedure: string; found: number; corrected: number; record: string;
  };
  /** What hangs on the load, where the tag was shown. */
  tag: null | {
    load: string; description: string; gross: string; allowable: string; aircraft: string; pickup: string; destination: string;
    rigger: string | null; planned: Stamp;
    equipment: { kind: string; serial: string; rating: string | null; due: string | null }[];
    links: { leg: string; link: number }[];
  };
  tag_scanned: boolean;
  seal_scanned: boolean;
  cautions: string[];
  /** Where several were shown at once: each. The gravest is the one above. */
  shown: { load: string; word: string; first: string }[];
}

/** What `open` took in. */
export type Opened =
  | Verdict
  | { kind: "roster"; authority: string; sequence: number; revoked: number; new: boolean }
  | {
      kind: "inspection"; subject: "piece" | "aircraft" | "zone" | "handling"; name: string; by: string; fit: boolean; issued: Stamp;
      fit_until: Stamp | null; why: string | null; procedure: string;
      /** All of it in one line, for a person. */
      text: string;
    }
  | {
      kind: "movement"; load: string; event: string; at: Stamp;
      /** Null where nobody trusted signed it: it decides nothing then. */
      by: string | null; text: string;
    }
  | { kind: "void"; load: string; by: string | null; cause: string | null };

export type Cause =
  | "verdict" | "rigging" | "damage" | "wrong-load" | "too-heavy" | "unstable" | "aircrew" | "zone" | "other";

/** What became of a load. `other` wants a note. */
export type Happened = { note?: string } & (
  | { event: "lifted" | "lost" | "set-down" | "derigged" }
  | { event: "refused"; cause: Cause }
);

/** A report that nobody signed: whoever takes it in shows it as such, and it decides nothing there. */
export interface Report {
  kind: "report";
  /** `MV1`, to be shown as a code. */
  text: string;
  load: string; event: string; what: string; at: Stamp;
  /** The code, and its version of ISO/IEC 18004. */
  svg: string; version: number;
}

/** When and in which language is asked: whole seconds since 1970, UTC. */
export interface Question { now: number; language?: "en" | "es" }

/** What a check page carries. */
export interface Contents {
  /** Five groups that the leader says by voice: who does not compare them trusts whoever made the file. */
  thumbprint: string;
  leader: string; made: Stamp; until: Stamp; words: number;
  authorities: { name: string; fingerprint: string; roster_until: Stamp | null }[];
}

/** Pixels of four bytes, red first, as a canvas gives them. */
export interface Pixels { width: number; height: number; data: Uint8Array }

/** One device without a disk: what it is told lasts as long as the object. Every method throws an `Error` of one plain line. */
export class Slingseal {
  static of(module: BufferSource): Promise<Slingseal>;
  /** Begins anew, by parts. Compare each card's fingerprint by voice before; `holds` are seals, voids and tags known already. */
  device(parts: { authorities: { card: string; rosters: string[] }[]; holds?: string[]; now: number }): {};
  /** Begins anew, by the bytes of a `CP1` message. Where it does not hold nobody is trusted any more. */
  begin(contents: Uint8Array): Contents;
  /** GO, WAIT or NO-GO on the texts that were shown at once. Keeps what is worth keeping. */
  judge(question: Question & { shown: string[] }): Verdict;
  /**
   * Takes in a text: a roster, a void, a report, an inspection of a piece; a seal or tag is judged. `own`: an unsigned report that an
   * earlier object of the same user wrote.
   */
  open(text: string, question: Question & { own?: boolean }): Opened;
  /**
   * An unsigned report of what became of `load`, which must be the load that was judged last. `device` is what the reporter goes by:
   * 16 random bytes in 32 hexadecimal digits, the same for all reports of one object, so that one that is missing shows.
   */
  report(question: Question & Happened & { load: string; device: string }): Report;
  /** The texts of the codes in a picture file (PNG, JPEG) or in pixels. */
  read(picture: Uint8Array | Pixels): string[];
  /** The next frame of a camera; `known` texts are passed over. */
  frame(picture: Pixels, known?: string[]): string[];
}
