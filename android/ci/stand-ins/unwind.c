/* Stand-in for the NDK's unwinder. The check builds with panic = "abort", so nothing is ever
   unwound; what the standard library still names is here, and finds no frame. */

#define END_OF_STACK 5
#define CANNOT_UNWIND 3

typedef unsigned long word;

int _Unwind_Backtrace(void *visit, void *argument) { return END_OF_STACK; }
int _Unwind_RaiseException(void *exception) { return CANNOT_UNWIND; }
void _Unwind_Resume(void *exception) { __builtin_trap(); }
void _Unwind_DeleteException(void *exception) {}
word _Unwind_GetIP(void *frame) { return 0; }
word _Unwind_GetIPInfo(void *frame, int *before) { *before = 0; return 0; }
word _Unwind_GetCFA(void *frame) { return 0; }
word _Unwind_GetGR(void *frame, int index) { return 0; }
void _Unwind_SetGR(void *frame, int index, word value) {}
void _Unwind_SetIP(void *frame, word value) {}
word _Unwind_GetRegionStart(void *frame) { return 0; }
word _Unwind_GetTextRelBase(void *frame) { return 0; }
word _Unwind_GetDataRelBase(void *frame) { return 0; }
void *_Unwind_GetLanguageSpecificData(void *frame) { return 0; }
void *_Unwind_FindEnclosingFunction(void *address) { return 0; }
