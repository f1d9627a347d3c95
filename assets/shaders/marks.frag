in vec4 seen;
out vec4 result;

void main() {
    result = seen;
}
