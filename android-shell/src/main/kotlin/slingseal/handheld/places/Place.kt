package slingseal.handheld.places

import java.io.Serializable
import slingseal.core.FieldWeighed
import slingseal.core.MovingOut
import slingseal.core.TagDraft
import slingseal.core.VoidCause

/**
 * Where the person is in the program: a page and what it needs to be drawn again. What it shows comes from
 * the core. A place outlives the process ([KeptPlaces]), so it holds no PIN and no passphrase, and not the
 * fingerprint of a card that is to be compared.
 */
sealed interface Place : Serializable {
    /**
     * A page of a walk: in an inspection the load's number stands over it, in a run of an examination its
     * clock.
     */
    sealed interface OfWalk : Place {
        /** Null where the page is opened from elsewhere too, and was. */
        val on: WalkRef?
    }

    data object Start : Place

    data object Else : Place

    data class Scan(val purpose: Purpose) : Place

    data class Type(val purpose: Purpose) : Place

    data class Tag(val text: String) : Place

    // an inspection's walk, or an examination's

    /** [recap] is the page of the recap that stands before the decision. */
    data class Walk(override val on: WalkRef, val recap: Int = 0) : OfWalk

    data class More(override val on: WalkRef) : OfWalk

    data class Cards(override val on: WalkRef) : OfWalk

    data class Findings(override val on: WalkRef) : OfWalk

    data class Finding(override val on: WalkRef, val finding: Int) : OfWalk

    data class Pick(override val on: WalkRef) : OfWalk

    data class Deficiency(val draft: DeficiencyDraft) : OfWalk {
        override val on
            get() = draft.on
    }

    data class Photo(val draft: DeficiencyDraft) : OfWalk {
        override val on
            get() = draft.on
    }

    /** [finding] is the one that is looked at again, where a value is asked for that. */
    data class Value(override val on: WalkRef, val card: Int, val point: String, val finding: Int? = null) :
        OfWalk

    data class Write(val why: Why) : OfWalk {
        override val on
            get() = why.on
    }

    data class NotFit(override val on: WalkRef) : OfWalk

    data class NotApplicable(override val on: WalkRef, val card: Int, val point: String) : OfWalk

    data class Rigging(override val on: WalkRef) : OfWalk

    data class Settings(override val on: WalkRef.Run? = null) : OfWalk

    // seals and records

    data class Seal(val record: String) : Place

    /** Texts to write: a tag, or a seal and its tag, or a report. */
    data class Sticker(val texts: List<String>) : Place

    data class Records(val sought: String = "") : Place

    data object Find : Place

    data class Record(val record: String) : Place

    data class Void(val record: String) : Place

    /** [note] is what is said where the cause is another one. */
    data class VoidPin(val record: String, val cause: VoidCause, val note: String? = null) : Place

    data class Voided(val text: String) : Place

    // at the hook, and where loads come down

    /**
     * The texts that were read. [alone]: the tag is judged by what this device holds, without its seal.
     * [several]: seals or tags that were shown at once.
     */
    data class Hook(
        val seal: String? = null,
        val tag: String? = null,
        val alone: Boolean = false,
        val several: List<String> = emptyList(),
    ) : Place

    /** [of] is a tag's text, a seal's or a load's number. */
    data class Arrival(val of: String) : Place

    data class What(val draft: Draft) : Place

    data class Refuse(val draft: Draft) : Place

    data class ReportNote(val draft: Draft, val said: Said) : Place

    data class ReportPhoto(val draft: Draft) : Place

    data class ReportPin(val draft: Draft) : Place

    data class When(val draft: Draft) : Place

    data class WhenTime(val draft: Draft) : Place

    data class Gear(val draft: Draft) : Place

    data class Report(val load: String, val digest: String) : Place

    /** A report that nobody signed is about to be. */
    data class ReportSign(val load: String, val digest: String) : Place

    // moving codes and files

    data object Move : Place

    data object Files : Place

    data class MoveOut(val out: MovingOut) : Place

    data object Have : Place

    /** What came in, in words, and what was set aside. */
    data class Moved(val sum: String, val aside: List<String>) : Place

    // this phone, its team, its authority

    data object SetUp : Place

    data object Join : Place

    data class Team(val step: TeamStep) : Place

    data object Request : Place

    data object Name : Place

    data class NewPin(val holder: String) : Place

    /** [heard] is what was keyed in of the fingerprint so far; the card's own is not here. */
    data class Trust(val card: String, val name: String, val heard: String = "") : Place

    /** Another authority of the card's name is trusted here already. */
    data class TrustBeside(val card: String, val name: String, val heard: String) : Place

    data object Authority : Place

    data object AuthorityName : Place

    /** [name] is that of an authority that is about to begin. */
    data class AuthorityLists(val name: String? = null, val picked: Set<String> = emptySet()) : Place

    data class AuthorityWords(val deed: Deed) : Place

    data class AuthorityIssue(val issuing: Issuing) : Place

    data class AuthorityShown(val code: AuthorityCode) : Place

    /** [own]: the credential is this phone's. */
    data class AuthorityCredential(val text: String, val holder: String, val own: Boolean) : Place

    data object AuthorityPeople : Place

    data class AuthorityPerson(val credential: String) : Place

    data class Copy(val part: CopyPart) : Place

    /** A part of an authority's copy that this phone keeps. */
    data object CopyKept : Place

    // the leader's

    data object Board : Place

    data class Story(val load: String) : Place

    /** [day] is one day of the account; null is all of it. */
    data class Close(val day: String? = null) : Place

    data class ClosePoint(val id: String, val title: String, val toDo: String, val note: String) : Place

    data class ClosePin(val day: String? = null) : Place

    /** [text] is the statement's, where it goes into one code. */
    data class Closed(val text: String?, val check: String) : Place

    data class Withdraw(val serial: String? = null) : Place

    data class WithdrawPin(val serial: String, val why: String) : Place

    // the planner's

    data object Plan : Place

    data class PlanDraft(val draft: TagDraft) : Place

    data class PlanField(val draft: TagDraft, val field: Planned) : Place

    data class PlanSource(val draft: TagDraft) : Place

    data class PlanPieces(val draft: TagDraft) : Place

    /** [kind] is what the piece is called. */
    data class PlanPiece(val draft: TagDraft, val kind: String) : Place

    data class PlanLinks(val draft: TagDraft) : Place

    data class PlanPin(val draft: TagDraft) : Place

    data class PlanTag(val text: String) : Place

    // a load on scales

    data class Weigh(val weighing: Weighing) : Place

    /** [at] is the point's number, from none; the one after the last is a new one. */
    data class WeighPoint(val weighing: Weighing, val at: Int) : Place

    data class WeighHeight(val weighing: Weighing) : Place

    /** [at] is the point that is named; null asks for the scales. */
    data class WeighWords(val weighing: Weighing, val at: Int? = null) : Place

    data class WeighNumber(val weighing: Weighing, val measure: Measure, val at: Int = 0) : Place

    data class Weighed(val result: FieldWeighed) : Place

    // lists, and what is inspected that is no load

    data object Procedures : Place

    data class Procedure(val id: String, val digest: String) : Place

    /** [id] is one list; null is all that may go. */
    data class ProceduresOut(val id: String? = null) : Place

    data object Subjects : Place

    data object Inspections : Place

    data class SubjectName(val procedure: String, val name: String = "") : Place

    data class Inspection(val digest: String) : Place

    // examinations

    data object Exams : Place

    data class ExamPlan(val planting: Planting) : Place

    data class ExamCards(val planting: Planting) : Place

    data class ExamNames(val planting: Planting, val card: Int) : Place

    data class ExamStandard(val planting: Planting, val standard: Standard) : Place

    data class ExamLock(val planting: Planting, val standard: Standard) : Place

    data object ExamKeys : Place

    data class ExamKey(val key: String) : Place

    data class ExamReveal(val key: String) : Place

    data class ExamName(val key: String) : Place

    data class ExamReady(val key: String, val student: String, val tag: String? = null) : Place

    data class ExamCalls(override val on: WalkRef.Run) : OfWalk

    data class ExamEnd(override val on: WalkRef.Run) : OfWalk

    data class ExamSheet(val run: String) : Place

    data class ExamScore(val sheet: String) : Place

    data object ExamResults : Place

    data class ExamResult(val result: String) : Place

    data class ExamResultCode(val result: String) : Place

    data object ExamClass : Place
}

/** The run that a page stands in; null everywhere but in an examination. */
internal val Place.run: String?
    get() = ((this as? Place.OfWalk)?.on as? WalkRef.Run)?.run
