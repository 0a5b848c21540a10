/* Wine before 9 lacks this library of Windows 8 and later, which Rust's std takes its randomness from. For the test alone. */
#include <windows.h>

BOOLEAN NTAPI SystemFunction036(PVOID buffer, ULONG length); /* RtlGenRandom, of advapi32 */

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE buffer, SIZE_T length) {
  return SystemFunction036(buffer, (ULONG)length);
}
