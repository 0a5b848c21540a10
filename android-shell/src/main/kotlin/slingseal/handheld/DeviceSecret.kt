package slingseal.handheld

import android.security.keystore.KeyGenParameterSpec
import android.security.keystore.KeyProperties
import java.security.KeyStore
import javax.crypto.KeyGenerator
import javax.crypto.Mac
import javax.crypto.SecretKey

/**
 * 32 bytes that this device alone can make: an HMAC (RFC 2104, SHA-256) by a key that the platform's keystore made and
 * never gives out. The core mixes them into the vault's key, so that a copied database opens nowhere else.
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
        (store.getKey(ALIAS, null) as? SecretKey)?.let { return it }
        val generator = KeyGenerator.getInstance(KeyProperties.KEY_ALGORITHM_HMAC_SHA256, STORE)
        generator.init(KeyGenParameterSpec.Builder(ALIAS, KeyProperties.PURPOSE_SIGN).build())
        return generator.generateKey()
    }
}
