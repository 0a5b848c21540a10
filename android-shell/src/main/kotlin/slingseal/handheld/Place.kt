package slingseal.handheld

import android.os.Bundle

/**
 * Where the person is in the program: a page and what it needs to be drawn again. What it shows comes from
 * the core.
 */
class Place(val page: PageKind, vararg args: String) {
    val args: List<String> = args.toList()

    fun save(): ArrayList<String> = ArrayList(listOf(page.name) + args)

    companion object {
        private const val KEY = "places"

        fun saveAll(places: List<Place>, state: Bundle) {
            state.putInt(KEY, places.size)
            for ((at, place) in places.withIndex()) state.putStringArrayList("$KEY $at", place.save())
        }

        fun loadAll(state: Bundle?): List<Place> {
            if (state == null) return emptyList()
            return (0 until state.getInt(KEY)).mapNotNull { at ->
                val saved = state.getStringArrayList("$KEY $at") ?: return@mapNotNull null
                val page = PageKind.entries.firstOrNull { it.name == saved.first() } ?: return@mapNotNull null
                Place(page, *saved.drop(1).toTypedArray())
            }
        }
    }
}

/** The pages. In brackets: what they are given. */
enum class PageKind(
    /**
     * Whether its first argument names a walk: an inspection's, or a run of an examination, which puts its
     * clock over it.
     */
    val ofWalk: Boolean = false
) {
    START,

    /** (purpose, text that was read before) */
    SCAN,

    /** (purpose, text that was read before) */
    TYPE,

    /** (tag's text) */
    TAG,

    /** (walk, page of the recap before the decision) */
    WALK(true),
    MOVE,

    /** Bundles by file. */
    FILES,

    /** (how many records, papers, procedures and parts, then line by line what was left out) */
    MOVE_OUT,
    HAVE,

    /** (what came in, then line by line what was set aside) */
    MOVED,

    /** (walk) */
    MORE(true),

    /** (walk) */
    CARDS(true),

    /** (walk) */
    FINDINGS(true),

    /** (walk, finding) */
    FINDING(true),

    /** (walk, card) */
    PICK(true),

    /** (walk, card, point, name, note, photos divided by commas) */
    DEFICIENCY(true),

    /** (walk, card, point, name, note, photos divided by commas) */
    PHOTO(true),

    /** (walk, card, point, finding or nothing) */
    VALUE(true),

    /** (texts to write: a tag, or a seal and its tag) */
    STICKER,

    /** (walk, why) */
    WRITE(true),

    /** (walk) */
    NOT_FIT(true),

    /** (walk, card, point) */
    NOT_APPLICABLE(true),

    /** (walk) */
    RIGGING(true),

    /** (record) */
    SEAL,

    /** (seal's text or nothing, tag's text or nothing, `alone` where the tag is judged without a seal) */
    HOOK,

    /** (tag's text or load number) */
    ARRIVAL,

    /** (a draft of a report, see `Draft`) */
    WHAT,

    /** (draft) */
    REFUSE,

    /** (draft, then which of its words) */
    REPORT_NOTE,

    /** (draft) */
    REPORT_PHOTO,

    /** (draft) */
    REPORT_PIN,

    /** (draft) */
    WHEN,

    /** (draft) */
    WHEN_TIME,

    /** (draft) */
    GEAR,

    /** (load, digest of the report) */
    REPORT,

    /** (load, digest of a report that nobody signed) */
    REPORT_SIGN,

    /** (words that are looked for) */
    RECORDS,
    FIND,
    ELSE,

    /** (record) */
    RECORD,

    /** (record, cause or nothing, note) */
    VOID,

    /** (void's text) */
    VOIDED,
    SET_UP,

    /** Into a team, step by step. */
    JOIN,

    /** A team's beginning on the phone that is its authority. (step) */
    TEAM,

    /** What stands on the zone. */
    BOARD,

    /** (load) */
    STORY,

    /** (day or nothing) */
    CLOSE,

    /** (point, title, what to do, what was said of it) */
    CLOSE_POINT,

    /** (day or nothing) */
    CLOSE_PIN,

    /** (statement's text or nothing, its check word) */
    CLOSED,

    /** (serial number or nothing, why or nothing) */
    WITHDRAW,

    /** What a new load is like. */
    PLAN,

    /** (a draft's fourteen fields) */
    PLAN_DRAFT,

    /** (a draft, field) */
    PLAN_FIELD,

    /** (a draft) */
    PLAN_SOURCE,

    /** (a draft) */
    PLAN_PIECES,

    /** (a draft, kind of piece) */
    PLAN_PIECE,

    /** (a draft) */
    PLAN_LINKS,

    /** (a draft) */
    PLAN_PIN,

    /** (tag's text) */
    PLAN_TAG,

    /** (a weighing, see `Weighing`) */
    WEIGH,

    /** (weighing, point) */
    WEIGH_POINT,

    /** (weighing) */
    WEIGH_HEIGHT,

    /** (weighing, point or nothing) */
    WEIGH_WORDS,

    /** (weighing, what, point) */
    WEIGH_NUMBER,

    /** (draft to take over, whether it is good, mass, centre, lines, report) */
    WEIGHED,

    /** The authority that this phone is, or may become. */
    AUTHORITY,
    AUTHORITY_NAME,

    /** (name of one that begins or nothing, lists that are picked) */
    AUTHORITY_LISTS,

    /** (what is done, and what that needs) */
    AUTHORITY_WORDS,

    /** (key request, holder, fingerprint, roles, days) */
    AUTHORITY_ISSUE,

    /** (card or roster) */
    AUTHORITY_CODE,

    /** (credential's text, holder, `own` where it is this phone's) */
    AUTHORITY_CREDENTIAL,
    AUTHORITY_PEOPLE,

    /** (1 or 2) */
    AUTHORITY_COPY,

    /** A part of an authority's copy that this phone keeps. */
    COPY_KEPT,

    /** (credential) */
    AUTHORITY_PERSON,

    /** Which lists count here. */
    PROCEDURES,

    /** (id, digest) */
    PROCEDURE,

    /** (id, or nothing for all that may go) */
    PROCEDURES_OUT,

    /** What is no load: what to inspect, and what was. */
    SUBJECTS,
    INSPECTIONS,

    /** (procedure, name that was read) */
    SUBJECT_NAME,

    /** (digest) */
    INSPECTION,

    /**
     * (card of an authority, its name, what was heard of its fingerprint, `beside` where another of the name
     * is trusted)
     */
    TRUST,
    REQUEST,
    NAME,

    /** (name) */
    NEW_PIN,

    /** (run, or nothing) */
    SETTINGS(true),
    EXAMS,

    /** (tag's text, how many, what they were drawn from, what was picked) */
    EXAM_PLAN,

    /** (as a plan) */
    EXAM_CARDS,

    /** (as a plan, then a card) */
    EXAM_NAMES,

    /** (as a plan, then how many must be found, seconds, false calls) */
    EXAM_STANDARD,

    /** (as a standard) */
    EXAM_LOCK,
    EXAM_KEYS,

    /** (key) */
    EXAM_KEY,

    /** (key) */
    EXAM_REVEAL,

    /** (key) */
    EXAM_NAME,

    /** (key, student, tag's text or nothing) */
    EXAM_READY,

    /** (run) */
    EXAM_CALLS(true),

    /** (run) */
    EXAM_END(true),

    /** (run) */
    EXAM_SHEET,

    /** (run) */
    EXAM_SCORE,
    EXAM_RESULTS,

    /** (result) */
    EXAM_RESULT,

    /** (result) */
    EXAM_RESULT_CODE,
    EXAM_CLASS,
}
