// The one system library that Go asks Windows for and that Debian's Wine lacks: random bytes, which Wine has under an older name.
#include <windows.h>
#include <ntsecapi.h>

__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE to, SIZE_T count) { return RtlGenRandom(to, (ULONG)count); }
