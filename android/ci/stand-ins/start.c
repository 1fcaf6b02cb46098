/* Stand-in for the start file that the NDK puts into every library: the handle by which the
   system knows this library, and the running of its exit handlers when it is unloaded. */

typedef void exit_handler(void *);

int __cxa_atexit(exit_handler *handler, void *argument, void *library);
void __cxa_finalize(void *library);

__attribute__((visibility("hidden"))) void *__dso_handle = &__dso_handle;

static void without_argument(void *handler) {
    ((void (*)(void))handler)();
}

__attribute__((visibility("hidden"))) int atexit(void (*handler)(void)) {
    return __cxa_atexit(without_argument, (void *)handler, &__dso_handle);
}

__attribute__((destructor)) static void unloaded(void) {
    __cxa_finalize(&__dso_handle);
}
