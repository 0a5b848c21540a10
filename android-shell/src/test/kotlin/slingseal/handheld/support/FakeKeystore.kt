package slingseal.handheld.support

import java.io.InputStream
import java.io.OutputStream
import java.security.Key
import java.security.KeyStoreSpi
import java.security.Provider
import java.security.SecureRandom
import java.security.Security
import java.security.cert.Certificate
import java.security.spec.AlgorithmParameterSpec
import java.util.Collections
import java.util.Date
import java.util.Enumeration
import javax.crypto.KeyGeneratorSpi
import javax.crypto.SecretKey
import javax.crypto.spec.SecretKeySpec

/**
 * Robolectric has no AndroidKeyStore: this one makes HMAC keys and keeps them in memory, as long as the test
 * runs.
 */
class FakeKeystore : Provider("AndroidKeyStore", "1", "in memory, for tests") {
    init {
        put("KeyStore.AndroidKeyStore", Store::class.java.name)
        put("KeyGenerator.HmacSHA256", Generator::class.java.name)
    }

    class Generator : KeyGeneratorSpi() {
        private var alias = ""
        private var inChip = false

        override fun engineInit(spec: AlgorithmParameterSpec, random: SecureRandom?) {
            alias = (spec as android.security.keystore.KeyGenParameterSpec).keystoreAlias
            inChip = spec.isStrongBoxBacked
        }

        override fun engineInit(random: SecureRandom?) = error("an alias is needed")

        override fun engineInit(size: Int, random: SecureRandom?) = error("an alias is needed")

        override fun engineGenerateKey(): SecretKey {
            asked += inChip
            if (inChip) withoutChip?.let { throw it }
            return SecretKeySpec(ByteArray(32).also(SecureRandom()::nextBytes), "HmacSHA256").also {
                kept[alias] = it
            }
        }
    }

    class Store : KeyStoreSpi() {
        override fun engineGetKey(alias: String, password: CharArray?): Key? = kept[alias]

        override fun engineContainsAlias(alias: String) = alias in kept

        override fun engineAliases(): Enumeration<String> = Collections.enumeration(kept.keys)

        override fun engineSize() = kept.size

        override fun engineIsKeyEntry(alias: String) = alias in kept

        override fun engineIsCertificateEntry(alias: String) = false

        override fun engineGetCertificateChain(alias: String): Array<Certificate>? = null

        override fun engineGetCertificate(alias: String): Certificate? = null

        override fun engineGetCreationDate(alias: String): Date? = null

        override fun engineSetKeyEntry(
            alias: String,
            key: Key,
            password: CharArray?,
            chain: Array<out Certificate>?,
        ) = error("not used")

        override fun engineSetKeyEntry(alias: String, key: ByteArray, chain: Array<out Certificate>?) =
            error("not used")

        override fun engineSetCertificateEntry(alias: String, cert: Certificate) = error("not used")

        override fun engineDeleteEntry(alias: String) {
            kept.remove(alias)
        }

        override fun engineGetCertificateAlias(cert: Certificate): String? = null

        override fun engineStore(stream: OutputStream?, password: CharArray?) = Unit

        override fun engineLoad(stream: InputStream?, password: CharArray?) = Unit
    }

    companion object {
        private val kept = LinkedHashMap<String, SecretKey>()

        /** For each key that was asked for, whether it was to lie in a chip of its own. */
        val asked = mutableListOf<Boolean>()

        /** How a phone says that it has no such chip; null where it has one. */
        var withoutChip: RuntimeException? = null

        /** The keystore of a phone that has just left its box. */
        fun fresh() {
            kept.clear()
            asked.clear()
            withoutChip = null
            Security.removeProvider("AndroidKeyStore")
            Security.addProvider(FakeKeystore())
        }
    }
}
