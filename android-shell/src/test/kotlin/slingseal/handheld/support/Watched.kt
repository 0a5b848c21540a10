package slingseal.handheld.support

import android.os.Looper
import java.lang.invoke.MethodHandles
import org.objectweb.asm.ClassWriter
import org.objectweb.asm.Opcodes
import org.objectweb.asm.Type
import slingseal.core.Handheld
import slingseal.core.HandheldInterface
import slingseal.core.NoHandle

/**
 * The core under a watch, on every phone under test: a page, or the program around it, that calls the core
 * from the main thread ends the test, whatever the call. A test's own calls are its own affair.
 *
 * In place of the platform's StrictMode, which sees files and sockets of Java's and nothing of what a native
 * library does.
 */
open class Watched(@JvmField val real: Handheld) : Handheld(NoHandle) {
    override fun close() = real.close()

    override fun destroy() = real.destroy()

    companion object {
        /** What was called so far. */
        val seen = java.util.concurrent.CopyOnWriteArraySet<String>()

        /** Who may not: everything of the program that runs on the main thread. */
        private val PAGES =
            listOf("screens.", "look.", "sense.", "HandheldActivity", "Slow", "Screen", "Printing", "Papers")
                .map { "slingseal.handheld.$it" }

        fun watch(real: Handheld): Handheld = made.newInstance(real)

        @JvmStatic
        fun called(call: String) {
            seen += call
            if (Looper.myLooper() != Looper.getMainLooper()) return
            val page =
                Throwable().stackTrace.firstOrNull { frame -> PAGES.any { frame.className.startsWith(it) } }
            check(page == null) { "$call on the main thread, from $page" }
        }

        private val made by lazy {
            MethodHandles.lookup().defineClass(written()).getConstructor(Handheld::class.java)
                as java.lang.reflect.Constructor<Watched>
        }

        /**
         * A class whose methods are all that the core has, so that no call is forgotten: each says what it
         * is, and then asks the real one. The platform's own proxies would wrap what the core throws.
         */
        private fun written(): ByteArray {
            val watched = Type.getInternalName(Watched::class.java)
            val core = Type.getInternalName(Handheld::class.java)
            val named = "L$core;"
            val written = ClassWriter(ClassWriter.COMPUTE_MAXS)
            written.visit(Opcodes.V11, Opcodes.ACC_PUBLIC, "${watched}Whole", null, watched, null)
            written.visitMethod(Opcodes.ACC_PUBLIC, "<init>", "($named)V", null, null).apply {
                visitVarInsn(Opcodes.ALOAD, 0)
                visitVarInsn(Opcodes.ALOAD, 1)
                visitMethodInsn(Opcodes.INVOKESPECIAL, watched, "<init>", "($named)V", false)
                visitInsn(Opcodes.RETURN)
                visitMaxs(0, 0)
            }
            for (call in HandheldInterface::class.java.methods) {
                val shape = Type.getMethodDescriptor(call)
                written.visitMethod(Opcodes.ACC_PUBLIC, call.name, shape, null, null).apply {
                    visitLdcInsn(call.name.substringBefore('-'))
                    visitMethodInsn(Opcodes.INVOKESTATIC, watched, "called", "(Ljava/lang/String;)V", false)
                    visitVarInsn(Opcodes.ALOAD, 0)
                    visitFieldInsn(Opcodes.GETFIELD, watched, "real", named)
                    var at = 1
                    for (given in Type.getArgumentTypes(call)) {
                        visitVarInsn(given.getOpcode(Opcodes.ILOAD), at)
                        at += given.size
                    }
                    visitMethodInsn(Opcodes.INVOKEVIRTUAL, core, call.name, shape, false)
                    visitInsn(Type.getReturnType(call).getOpcode(Opcodes.IRETURN))
                    visitMaxs(0, 0)
                }
            }
            return written.toByteArray()
        }
    }
}
