package slingseal.handheld.places

import android.content.Context
import android.os.Bundle
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import java.io.IOException
import java.io.InputStream
import java.io.InvalidClassException
import java.io.ObjectInputStream
import java.io.ObjectOutputStream
import java.io.ObjectStreamClass
import java.io.OutputStream
import java.io.Serializable
import java.nio.ByteBuffer
import slingseal.core.ExamPick
import slingseal.core.FfiConverter
import slingseal.core.FfiConverterTypeExamPick
import slingseal.core.FfiConverterTypeFieldWeighed
import slingseal.core.FfiConverterTypeFieldWeighing
import slingseal.core.FfiConverterTypeMovingOut
import slingseal.core.FfiConverterTypePieceReport
import slingseal.core.FfiConverterTypeTagDraft
import slingseal.core.FieldWeighed
import slingseal.core.FieldWeighing
import slingseal.core.MovingOut
import slingseal.core.PieceReport
import slingseal.core.TagDraft

/**
 * The pages that lie open, in the state that the platform keeps over a turn of the phone and over the end of
 * the process. They are read by the very build that wrote them: what another one kept, and what is damaged,
 * is no page at all, and the person begins at the start.
 */
object KeptPlaces {
    private const val KEY = "places"
    private const val BUILD = "places' build"

    /** What names the installed build: the time at which it was put here. */
    fun buildOf(context: Context): Long =
        context.packageManager.getPackageInfo(context.packageName, 0).lastUpdateTime

    fun save(places: List<Place>, build: Long, state: Bundle) {
        val bytes = ByteArrayOutputStream()
        PlaceOutput(bytes).use { it.writeObject(ArrayList(places)) }
        state.putByteArray(KEY, bytes.toByteArray())
        state.putLong(BUILD, build)
    }

    fun load(build: Long, state: Bundle?): List<Place> {
        val bytes = state?.getByteArray(KEY) ?: return emptyList()
        if (state.getLong(BUILD, build - 1) != build) return emptyList()
        return try {
            PlaceInput(ByteArrayInputStream(bytes)).use {
                (it.readObject() as List<*>).map { at -> at as Place }
            }
        } catch (e: IOException) {
            lost(e)
        } catch (e: ClassNotFoundException) {
            lost(e)
        } catch (e: ClassCastException) {
            lost(e)
        }
    }

    private fun lost(why: Exception): List<Place> {
        android.util.Log.i("slingseal", "the pages that lay open are not read: ${why.message}")
        return emptyList()
    }
}

/**
 * The core's records know nothing of the platform's serialization: they go as the bytes that cross to the
 * core.
 */
private class PlaceOutput(to: OutputStream) : ObjectOutputStream(to) {
    init {
        enableReplaceObject(true)
    }

    override fun replaceObject(one: Any?): Any? =
        when (one) {
            is TagDraft -> CoreRecord.of(CoreKind.DRAFT, FfiConverterTypeTagDraft, one)
            is PieceReport -> CoreRecord.of(CoreKind.PIECE, FfiConverterTypePieceReport, one)
            is ExamPick -> CoreRecord.of(CoreKind.PICK, FfiConverterTypeExamPick, one)
            is MovingOut -> CoreRecord.of(CoreKind.OUT, FfiConverterTypeMovingOut, one)
            is FieldWeighing -> CoreRecord.of(CoreKind.WEIGHING, FfiConverterTypeFieldWeighing, one)
            is FieldWeighed -> CoreRecord.of(CoreKind.WEIGHED, FfiConverterTypeFieldWeighed, one)
            else -> one
        }
}

private class PlaceInput(from: InputStream) : ObjectInputStream(from) {
    /** Nothing is made that a place does not consist of. */
    override fun resolveClass(of: ObjectStreamClass): Class<*> {
        if (OURS.none { of.name.startsWith(it) }) throw InvalidClassException(of.name, "no part of a place")
        return super.resolveClass(of)
    }

    private companion object {
        val OURS =
            listOf(
                "slingseal.handheld.",
                "slingseal.core.",
                "java.util.",
                "java.lang.",
                "kotlin.",
                "[B",
                "[Ljava.",
                "[Lslingseal.",
            )
    }
}

private enum class CoreKind {
    DRAFT,
    PIECE,
    PICK,
    OUT,
    WEIGHING,
    WEIGHED,
}

private class CoreRecord(val kind: CoreKind, val bytes: ByteArray) : Serializable {
    // called by the platform when it has read the record
    @Suppress("UnusedPrivateMember")
    private fun readResolve(): Any {
        val from = ByteBuffer.wrap(bytes)
        return when (kind) {
            CoreKind.DRAFT -> FfiConverterTypeTagDraft.read(from)
            CoreKind.PIECE -> FfiConverterTypePieceReport.read(from)
            CoreKind.PICK -> FfiConverterTypeExamPick.read(from)
            CoreKind.OUT -> FfiConverterTypeMovingOut.read(from)
            CoreKind.WEIGHING -> FfiConverterTypeFieldWeighing.read(from)
            CoreKind.WEIGHED -> FfiConverterTypeFieldWeighed.read(from)
        }
    }

    companion object {
        fun <T> of(kind: CoreKind, by: FfiConverter<T, *>, record: T): CoreRecord {
            val into = ByteBuffer.allocate(by.allocationSize(record).toInt())
            by.write(record, into)
            return CoreRecord(kind, into.array().copyOf(into.position()))
        }
    }
}
