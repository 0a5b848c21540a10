// NOT BUILT HERE: see settings.gradle.kts. Before it: scripts/bindings.sh (the generated Kotlin) and scripts/library.sh (the
// library for phones). Its output is build/; what Maven makes stays in target/.
plugins {
    id("com.android.application") version "8.13.0"
    id("org.jetbrains.kotlin.android") version "2.4.21"
}

android {
    namespace = "slingseal.handheld"
    compileSdk = 35
    defaultConfig {
        applicationId = "slingseal.handheld"
        minSdk = 26
        targetSdk = 35
        versionCode = 1
        versionName = "0.1.0"
        ndk { abiFilters += listOf("arm64-v8a", "x86_64") }
    }
    compileOptions {
        sourceCompatibility = JavaVersion.VERSION_17
        targetCompatibility = JavaVersion.VERSION_17
    }
    sourceSets["main"].kotlin.srcDir("target/generated-sources/uniffi")
    // library.sh leaves target/ABI/libslingseal_android.so
    sourceSets["main"].jniLibs.srcDir("target")
    packaging { jniLibs.useLegacyPackaging = true }
    buildTypes.getByName("release") {
        isMinifyEnabled = true
        proguardFiles("keep.pro")
    }
}

kotlin { jvmToolchain(17) }

dependencies {
    implementation("net.java.dev.jna:jna:5.18.1@aar")
    testImplementation("junit:junit:4.13.2")
    testImplementation("com.google.zxing:core:3.5.3")
    testImplementation("org.robolectric:robolectric:4.17")
    testImplementation("net.java.dev.jna:jna:5.18.1")
}
