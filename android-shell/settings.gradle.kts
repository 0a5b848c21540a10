// NOT BUILT HERE: for whoever opens the shell in the usual studio. The build that is tried in every run is pom.xml; a test holds
// the versions of the two together (GradleTest).
pluginManagement {
    repositories {
        google()
        mavenCentral()
        gradlePluginPortal()
    }
}
dependencyResolutionManagement {
    repositories {
        google()
        mavenCentral()
    }
}
rootProject.name = "slingseal-handheld"
