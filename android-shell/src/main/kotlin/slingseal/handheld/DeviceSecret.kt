package slingseal.handheld

import android.os.Build
import android.security.keystore.KeyGenParameterSpec
import android.security.keystore.KeyProperties
import android.security.keystore.StrongBoxUnavailableException
import java.io.File
import java.security.KeyStore
import java.security.MessageDigest
import java.security.ProviderException
import javax.crypto.KeyGenerator
import javax.crypto.Mac
import javax.crypto.SecretKey

/**
 * 32 bytes that this device alone can make: an HMAC (RFC 2104, SHA-256) by a key that the platform's keystore
 * made and never gives out. The core mixes them into the vault's key, so that a copied database opens nowhere
 * else.
 */
object DeviceSecret {
    private const val STORE = "AndroidKeyStore"
    private const val ALIAS = "slingseal device"
    private val MESSAGE = "slingseal device secret, first".toByteArray(Charsets.US_ASCII)

    fun bytes(): ByteArray {
        val mac = Mac.getInstance("HmacSHA256")
        mac.init(key())
        return mac.doFinal(MESSAGE)
    }

    private fun key(): SecretKey {
        val store = KeyStore.getInstance(STORE).apply { load(null) }
        (store.getKey(ALIAS, null) as? SecretKey)?.let {
            return it
        }
        val generator = KeyGenerator.getInstance(KeyProperties.KEY_ALGORITHM_HMAC_SHA256, STORE)
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.P)
            inStrongBox(generator)?.let {
                return it
            }
        generator.init(spec().build())
        return generator.generateKey()
    }

    private fun spec() = KeyGenParameterSpec.Builder(ALIAS, KeyProperties.PURPOSE_SIGN)

    /** A chip of its own for keys, where the phone has one. */
    @NewerAndroid
    private fun inStrongBox(generator: KeyGenerator): SecretKey? =
        try {
            generator.init(spec().setIsStrongBoxBacked(true).build())
            generator.generateKey()
        } catch (e: StrongBoxUnavailableException) {
            android.util.Log.i("slingseal", "no StrongBox: ${e.message}")
            null
        } catch (e: ProviderException) {
            // some phones say so in their own way
            android.util.Log.i("slingseal", "no StrongBox: ${e.message}")
            null
        }
}

/**
 * Remembers which secret the vault was locked with, by a digest that gives nothing away: SHA-256 over the
 * secret and a word.
 */
internal object SecretWitness {
    private val WORD = "slingseal witness".toByteArray(Charsets.US_ASCII)

    /** Whether another secret stood here when the key was made. Where no key is made yet, nothing is lost. */
    fun differs(file: File, secret: ByteArray, keyMade: Boolean): Boolean {
        val print =
            MessageDigest.getInstance("SHA-256").run {
                update(secret)
                digest(WORD)
            }
        if (keyMade && file.exists()) return !file.readBytes().contentEquals(print)
        file.writeBytes(print)
        return false
    }
}
