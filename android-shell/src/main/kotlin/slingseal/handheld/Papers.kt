package slingseal.handheld

import android.content.ContentProvider
import android.content.ContentValues
import android.content.Context
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.ParcelFileDescriptor
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException

/** What a bundle's file is. */
internal const val KIND = "application/vnd.slingseal.bundle"

/**
 * Hands the one file that is to be shared to the program that a person chose, and nothing else: it is not
 * exported, and a reader needs the grant that goes with the share.
 */
class Papers : ContentProvider() {
    override fun onCreate() = true

    override fun getType(uri: Uri) = KIND

    override fun openFile(uri: Uri, mode: String): ParcelFileDescriptor {
        val file = file(context ?: throw FileNotFoundException("closed"))
        if (mode != "r" || uri.lastPathSegment != NAME) throw FileNotFoundException("$uri")
        return ParcelFileDescriptor.open(file, ParcelFileDescriptor.MODE_READ_ONLY)
    }

    override fun query(
        uri: Uri,
        columns: Array<out String>?,
        where: String?,
        values: Array<out String>?,
        order: String?,
    ): Cursor {
        val shown = columns ?: arrayOf(OpenableColumns.DISPLAY_NAME, OpenableColumns.SIZE)
        return MatrixCursor(shown).apply {
            addRow(
                shown.map {
                    if (it == OpenableColumns.DISPLAY_NAME) NAME
                    else if (it == OpenableColumns.SIZE) context?.let(::file)?.length() else null
                }
            )
        }
    }

    override fun insert(uri: Uri, values: ContentValues?): Uri? = null

    override fun delete(uri: Uri, where: String?, values: Array<out String>?) = 0

    override fun update(uri: Uri, values: ContentValues?, where: String?, whereValues: Array<out String>?) = 0

    companion object {
        private const val NAME = "slingseal.bundle"

        /** Where the file lies until the next one is written. */
        fun file(context: Context): File = File(File(context.cacheDir, "papers").apply { mkdirs() }, NAME)

        fun uri(context: Context): Uri = Uri.parse("content://${context.packageName}.papers/$NAME")
    }
}
